/* planter_parts.h - inside the computation: a planter's result on its way. */
#ifndef SLABWRIGHT_CALC_PLANTER_PARTS_H
#define SLABWRIGHT_CALC_PLANTER_PARTS_H

#include "slabwright/planter.h"

struct planter_work {
	struct arena *mem;
	const struct plan *plan;
	const struct plan_planter *p;
	struct planter_result *r;
	int64_t kerf_um;
	int64_t half_um;
	struct error *err;
};

/* Where a leg's leaf ends at one of its corners, inward along the leg from that corner, um. */
struct planter_bound {
	double out_um, in_um; /* on the leaf's outer side and inner side */
	int64_t longest_um; /* the lesser of both, whole */
	bool corner, end, mitre;
	bool joint; /* it ends on the other leg's block: a joint stands there */
};

/* `leaving`: the corner is where the leg begins. `odd` the course. */
struct planter_bound planter_bound(
        const struct planter_work *w, size_t corner, bool leaving, bool odd, int leaf);

/* Corners, legs, leaves and inside. Refuses what cannot be built. */
enum status planter_shape(struct planter_work *w);

/* A leg's course in one leaf: first + whole blocks + last, from_um to to_um. */
struct planter_way {
	int64_t from_um, to_um;
	int64_t first_um, whole, last_um; /* last 0: first is all there is */
};

/* ways[leaf * leg_count + leg][odd ? 0 : 1]; turns the corners (first_goes_on). */
enum status planter_bond(struct planter_work *w, struct planter_way (**ways)[2]);

/* Units and joints of both courses, laps, blocks to buy, mortar. */
enum status planter_lay(struct planter_work *w, struct planter_way (*ways)[2]);

/* Ties, cap with its fixings, weep holes. */
enum status planter_ties(struct planter_work *w);
enum status planter_cap(struct planter_work *w);
enum status planter_weeps(struct planter_work *w);

/* Length of the line that runs v_um into the wall from its outer face, ends left square. */
double planter_line_um(const struct planter_result *r, double v_um);

#endif
