/* kerb.h - how the edging stands: section, bed and haunch, what it weighs, string lines.
 *
 * Across the run, x counts outward from the edge of the paving and z up from the unit's underside.
 * The unit's inner side is upright at x = 0. Its outer side is at the depth; a tapered unit has the
 * foot at z = 0 and the depth at its top. Under it lies the base strip, from the inner side (or so
 * far beyond it, where both sides are haunched) to as far beyond the foot. The haunch is a triangle
 * from the foot outward by its width, up to the held height on the unit; on both sides where asked.
 *
 * Volumes are exact: a section of area A whose first moment about the edge is M, swept along edges
 * of length L that turn by arcs of a (radians) and corners of t, takes A L + M (sum a + sum 2 tan
 * (t / 2)) (Pappus and Guldin; mitred corners). So corners count once, and arcs by the length of
 * the line through the section's own centre. Where a run of the kind ends, strip and haunch end
 * square.
 */
#ifndef SLABWRIGHT_KERB_H
#define SLABWRIGHT_KERB_H

#include "slabwright/edging.h"
#include "slabwright/handling.h"

#define CEMENT_BAG_KG 25 /* as sold in Europe */

/* Areas in m2, per metre of run m3. */
struct kerb_section {
	double unit_m2, strip_m2, haunch_m2; /* haunch: both sides */
	int64_t strip_width_um;
	int64_t least_held_um; /* a third of the height, rounded up (common practice, no source) */
	bool held; /* at least that */
	int64_t top_um, underside_um, trench_um; /* over the finished surface; trench: bottom of
	                                            the strip */
};

/* Bed and haunch of one kind or of one mix. */
struct kerb_mix {
	double m3, cement_kg; /* compacted; cement in it */
	int64_t bags; /* of CEMENT_BAG_KG, whole ones */
};

/* The string along an edge. Levels are those of the unit's top: the finished surface there and what
 * the unit stands over it. */
struct kerb_run {
	size_t edge; /* number over the whole plan, from 0 */
	double length_m;
	double from_um, to_um; /* at the edge's two corners */
	bool curved;
	double middle_um; /* of an arc: at its middle */
	int64_t middle_x_um, middle_y_um;
	double fall_um_per_m; /* from the first to the last along the edge; negative: it rises */
	double from_trench_um, to_trench_um; /* bottom of the trench */
	bool has_staff;
	double from_staff_um, to_staff_um, middle_staff_um;
	bool dams; /* kerb_dams */
};

struct kerb_line {
	enum edge_kind kind;
	const struct plan_edging *edging;
	const char *fault; /* why no section is worked out, and the remedy; NULL where it is. What
	                      follows is then 0 */
	struct kerb_section section;
	double length_m; /* along the edges */
	double strip_m3, haunch_m3;
	struct kerb_mix mix;
	bool has_unit; /* bought by the piece */
	int64_t cover_um; /* run that a unit covers, its joint included */
	double unit_kg, mass_kg; /* of one, and of all to buy without corner pieces; 0 unknown */
	struct handling handling;
	const char *notes[4]; /* what to look at: texts */
	size_t note_count;
	struct kerb_run *runs; /* by edge number; none where the surface has no levels */
	size_t run_count;
};

struct kerb_result {
	struct kerb_line *lines; /* kinds that occur and have a height, in the order of enum
	                            edge_kind */
	size_t count;
	struct kerb_mix by_mix[2]; /* by enum bed_mix: what is ordered together */
};

/* The section alone. Refuses (STATUS_PLAN), naming value and remedy: what edging_check refuses; a
 * haunch that reaches higher than the unit; a tapered unit without a foot
 * or narrower there than at its top; a unit without a depth. */
enum status kerb_section(
        const struct plan *plan, enum edge_kind kind, struct kerb_section *out, struct error *err);

/* All kinds. A kind with a fault does not fail the others. `edging` has the units, by kind. */
enum status kerb_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        const struct edging_result *edging, struct kerb_result *out, struct error *err);

/* Whether what stands along edges of the kind is higher than the surface beside it, so that water
 * which reaches it is held: a planter, or anything whose top is set over the surface. */
bool kerb_dams(const struct plan *plan, enum edge_kind kind);

#endif
