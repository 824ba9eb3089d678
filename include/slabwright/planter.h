/* planter.h - planters: walls of blocks laid out block by block, and what goes with them.
 *
 * A run of straight legs along the wall's outer face, the wall to its left. A closed run is taken
 * anticlockwise, so that the wall lies inside it, whichever way it was drawn. Along a leg u is
 * measured on the outer face from its first corner, v across the wall from the outer face; each
 * leaf takes a strip of v. Lengths are in um.
 *
 * Corners. Legs that meet at a right angle (to 0.25 degrees; the joint takes that up) interlock:
 * the corner's block belongs to one leg in odd courses and to the other in even ones. At any other
 * corner both legs' blocks are cut to the mitre, a joint that runs up through all courses and is
 * held by a tie in each. Legs that meet at less than 45 degrees are refused. Corners at which a leg
 * goes straight on are left out.
 *
 * Courses. Odd courses are alike, and so are even ones. A leg's course is a first unit, whole
 * blocks, and a last unit; first and last are whole, half or cut. Of all such layouts tried, and
 * ways to turn the corners, that one is taken with the fewest faults (a unit shorter than a quarter
 * of the block, a lap under that), then with half bond (laps of at least 3/8 of block and joint),
 * then with the fewest cut units, then with the widest laps. A lap is the distance between the
 * middles of two upright joints, one above the other.
 *
 * A half is (block - joint) / 2; where halves are cut and the blade takes more than the joint,
 * (block
 * - kerf) / 2, so that a block always yields two. */
#ifndef SLABWRIGHT_PLANTER_H
#define SLABWRIGHT_PLANTER_H

#include "slabwright/pack.h"
#include "slabwright/surface.h"
#include "slabwright/wall.h"

#define PLANTER_LINER_LAPS 1.1 /* common practice, no source */

enum planter_turn {
	PLANTER_END, /* end of an open run */
	PLANTER_SQUARE,
	PLANTER_MITRE,
};

struct planter_corner {
	size_t point; /* number among the plan's points, from 0 */
	int64_t x_um, y_um;
	enum planter_turn turn;
	int64_t turn_udeg; /* by which the run turns left; negative: right */
	double half_tan; /* tangent of half of it; 1 or -1 at a square corner, 0 at an end */
	bool first_goes_on; /* square: the leg that comes in has the block in odd courses */
	double surface_um; /* level of the finished surface there; 0 without one */
	double reveal_um; /* the wall's top over it */
	int64_t courses_under; /* courses whose top lies no higher than the surface there */
	double staff_um; /* on the wall's top, where an instrument is set up */
};

struct planter_leg {
	size_t from, to; /* corners */
	int64_t length_um; /* of the outer face */
	double inside_um; /* of the inner face */
	double way_x, way_y; /* direction, a unit long */
};

/* One way round the wall: 0 the outer leaf, 1 the inner. */
struct planter_leaf {
	int64_t v0_um, v1_um;
};

enum planter_piece { UNIT_WHOLE, UNIT_HALF, UNIT_CUT };
const char *planter_piece_name(enum planter_piece piece); /* "whole", "half", "cut" */

/* A block as it lies. Its ends are upright but for a mitre: u on the leaf's outer side and on its
 * inner side differ there. */
struct planter_unit {
	size_t leg;
	int leaf;
	enum planter_piece piece;
	bool corner; /* it lies on a square corner and belongs to this leg there */
	bool end; /* it stands at the end of an open run */
	double from_out_um, from_in_um, to_out_um, to_in_um;
	int64_t length_um; /* along its longer side */
};

/* An upright joint, by its middle; laid dry, the line where two units meet. */
struct planter_joint {
	size_t leg;
	int leaf;
	double u_um; /* in the middle of the leaf */
	bool corner; /* between a corner's block and the leg that ends on it, or a mitre */
	bool mitre; /* told by the leg that leaves the corner */
};

enum tie_place { TIE_END, TIE_CORNER, TIE_BETWEEN };
const char *tie_place_name(enum tie_place place); /* "end", "corner", "between" */

/* A tie in a slot across an upright joint; with two leaves, across both leaves there. */
struct planter_tie {
	size_t leg;
	double u_um;
	enum tie_place place;
};

/* Courses 1, 3, 5 ... or 2, 4, 6 ... Units go leaf by leaf, leg by leg, in order of u. */
struct planter_course {
	struct planter_unit *units;
	size_t unit_count;
	struct planter_joint *joints;
	size_t joint_count;
	struct planter_tie *ties;
	size_t tie_count;
	/* Every unit is counted once: a whole block on a square corner is a corner unit. */
	int64_t whole, half, corner, cut;
	int64_t ends; /* of the whole ones: at ends of an open run */
	int64_t times; /* how many of the courses are like this */
};

/* A piece to be cut, of one length. */
struct planter_cut {
	int64_t length_um;
	int64_t count; /* in the whole wall */
};

struct planter_blocks {
	int64_t whole, half, corner, cut; /* laid, over all courses */
	int64_t too_short; /* of the cut: shorter than a quarter block */
	struct planter_cut *cuts; /* from whole blocks, halves too where they are not bought */
	size_t cut_count;
	struct pack_plan pack; /* which come from which block; by number in cuts */
	int64_t buy_whole, buy_half, buy_corner; /* corner blocks: also for ends, and one for each
	                                            cut unit at a corner or end; 0 where there are
	                                            none to buy */
	int64_t buy_at_least; /* whole blocks: no fewer can do, proven */
	const char *reason; /* what proves it */
	int64_t price_minor; /* of all, a half priced as a block; -1 unknown */
};

struct planter_cap_piece {
	size_t leg;
	double from_um, to_um; /* u, on its longer side */
	int64_t length_um;
	bool whole;
};

struct planter_spot {
	size_t leg;
	double u_um;
};

/* The profile on top, in the wall's full width, mitred at every corner. */
struct planter_cap {
	struct planter_cap_piece *pieces;
	size_t piece_count;
	size_t joints; /* between pieces along legs; corners come on top */
	int64_t whole, cut, units, bound;
	const char *reason;
	struct planter_spot *fixings; /* 50 mm in from both ends of each piece, or a quarter of a
	                                 short one (common practice), and evenly between */
	size_t fixing_count;
	double spacing_um; /* the widest reached */
	int64_t price_minor; /* -1 unknown */
};

struct planter_fill {
	double inside_m2; /* within the inner face; of an open run, up to the straight line
	                     between its ends */
	double gravel_m3, soil_m3; /* in place */
	double soil_loose_m3; /* to be delivered: more by the plan's bulking */
	double liner_m2; /* inner face, as high as the fill, and 10 % for laps (common practice) */
	struct planter_spot *weeps; /* in the first course, evenly along each leg's inner face */
	size_t weep_count;
};

struct planter_result {
	const struct plan_planter *planter;
	bool ready; /* else `fault` says why it cannot be built, and nothing else is set */
	struct error fault;
	struct planter_corner *corners;
	size_t corner_count;
	struct planter_leg *legs; /* leg i leaves corner i */
	size_t leg_count;
	struct planter_leaf leaves[2];
	int leaf_count;
	int64_t width_um; /* of the wall */
	double middle_m; /* length of the wall's middle line */
	double inside_x_um, inside_y_um; /* clear width and depth of a closed run along x and y */
	struct planter_course courses[2]; /* odd, even */
	int64_t least_piece_um, least_lap_um; /* asked for: a quarter of the block, both */
	double lap_um; /* the least reached; 0 where only one course is laid, or legs of one unit */
	bool has_lap;
	bool half_bond; /* no lap is under 3/8 of block and joint */
	struct planter_blocks blocks;
	int64_t tie_count; /* over all courses */
	double tie_um; /* the widest spacing reached along a leg; more than asked for only where
	                  blocks are longer than it */
	struct planter_cap cap;
	double mortar_m3; /* of all joints, beds and the joint between leaves; 0 laid dry */
	double footing_m3, cement_kg;
	struct planter_fill fill;
	int64_t height_um, top_um; /* of the wall, without a cap; level of its top: string line */
	bool has_surface, has_staff;
	double least_reveal_um, most_reveal_um; /* at every tenth of every leg */
	int64_t courses_under, courses_partly; /* under the finished surface all along; somewhere */
	double block_kg, wall_kg, wall_kg_m; /* 0 unknown */
	const struct rule *lift; /* limit for one person; NULL none */
	bool heavy; /* a block is over it */
	struct wall_result wall; /* the soil it holds */
};

struct planters_result {
	struct planter_result *items; /* as the plan's planters */
	size_t count;
};

/* Works out the plan's planters; the outline is not needed. A planter that cannot be built has a
 * fault of its own, naming place and remedy. The plan must outlive the result. STATUS_MEMORY. */
enum status planters_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct planters_result *out, struct error *err);

/* Course k, from 1. */
const struct planter_course *planter_course(const struct planter_result *r, int64_t course);
/* Level of the underside of course k, from 1. */
int64_t planter_course_um(const struct planter_result *r, int64_t course);

/* A place of the wall in the plan. */
struct point planter_point(const struct planter_result *r, size_t leg, double u_um, double v_um);

/* The four corners of a unit in the plan, anticlockwise: outer side first. */
void planter_unit_ring(
        const struct planter_result *r, const struct planter_unit *unit, struct point out[4]);

/* "planter 2 (Herbs)". Returns buf. */
char *planter_words(char *buf, size_t size, const struct plan_planter *planter, size_t number);

#endif
