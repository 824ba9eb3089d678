/* steps.h - flights of steps: number of risers, how they stand, what they are built of.
 *
 * The rise is the level at the top nosing (the paving's, or the flight's own) less that at the
 * foot. A riser goes from nosing to nosing, so the fall of a tread is part of it: what is seen of a
 * riser behind a tread is the riser less that tread's fall. Risers are equal; in whole um they
 * differ by 1 at most, and their sum is the rise.
 *
 * s runs from the top nosing down the flight. A flight of n risers has n - 1 treads of one going;
 * its top is the paving. Rows are numbered from the bottom.
 *
 * Of units: one row of them for each riser. The nosing of row i stands at s = (n - i) going, its
 * back one unit's depth behind; the top row lies in the paving, level with it. Built up: one row of
 * riser pieces for each riser, their face behind the nosing by the overhang; on each but the top
 * one a tread of slabs as deep as going and overhang together, so that it ends at the next riser's
 * face.
 *
 * A flight with a fault does not fail the others. */
#ifndef SLABWRIGHT_STEPS_H
#define SLABWRIGHT_STEPS_H

#include "slabwright/geom.h"
#include "slabwright/handling.h"
#include "slabwright/pack.h"

#define STEPS_MOST_RISERS 100
#define STEPS_STRAP_UM                                                                             \
	(50 * UM_PER_MM) /* bed left out at both ends of a unit, for the straps                    \
	                  * (common practice, no source) */
#define STEPS_OVERLAP_UM                                                                           \
	(20 * UM_PER_MM) /* least of a unit that lies under the next (common                       \
	                  * practice, no source) */
#define STEPS_MOST_BED_UM                                                                          \
	(50 * UM_PER_MM) /* a thicker bed is a job for a foundation or another                     \
	                  * unit (common practice, no source) */

/* A limit of the rule set and what the flight has. */
struct step_check {
	const struct rule *rule;
	const char *what; /* "riser", "two risers and a going" */
	bool least; /* the rule is a least; else a most */
	double is; /* in the rule's own measure: um, thousandths of a degree */
	bool obeyed;
};

/* A row of units, or of riser pieces. */
struct step_row {
	int64_t level_um, riser_um; /* at its nosing; from the nosing below, or the foot */
	int64_t front_um, back_um; /* s of the unit's nosing and back, or the tread's; of the top
	                              row of a built flight, which has no tread, both 0 */
	int64_t face_um; /* s of the riser's face */
	int64_t top_um, underside_um; /* of the unit at its nosing, or of the riser piece */
	int64_t visible_um; /* height of the riser's face that is seen, bed and tread included */
	int64_t sunk_um; /* how far unit or riser piece reaches under what lies before it; 0 where
	                    it does not */
	int64_t bed_um; /* of units: between it and the row under it, or the ground; negative where
	                   it would stand in the unit under it. Of the bottom unit, where it does
	                   not sink: how high its underside stands. Of riser pieces: between it and
	                   the tread on it */
};

/* A unit, riser piece or tread slab where it lies. */
struct step_piece {
	size_t row; /* from 0 */
	bool tread; /* of a built flight */
	bool cut;
	int64_t from_um, length_um; /* along the width, from the left of who looks down */
	struct point corner[4]; /* on the plan, um: front left, front right, back right, back left
	                         */
};

/* What is bought of one length. */
struct step_order {
	int64_t whole, cut; /* laid whole; pieces cut */
	int64_t units, bound; /* to buy, and the proven least */
};

/* Units stacked as they come, each on the planned bed, from the paving down. */
struct step_stack {
	int64_t risers;
	int64_t riser_um; /* unit, bed and the fall of the tread below */
	int64_t bottom_um; /* the bottom riser: what is left of the rise */
	int64_t sunk_um; /* of the bottom unit, in the ground */
	bool even; /* the difference is within riser_spread_max; without that rule: 1 mm */
};

struct flight {
	const struct plan_steps *steps;
	const char *fault; /* why it cannot be worked out, and the remedy; NULL where it can. What
	                      follows is then not to be used, but for levels and rise */
	int64_t top_um, bottom_um, rise_um;
	int64_t risers;
	bool chosen; /* by the rule set, not by the plan */
	double riser_um, pace_um, pitch_deg; /* pace: two risers and a going */
	int64_t run_um; /* from the top nosing to the bottom one */
	int64_t tread_fall_um; /* over one going */
	int64_t going_least_um, going_most_um; /* that obey with these risers; most < least: none;
	                                          INT64_MAX: no most */
	struct step_check *checks;
	size_t check_count;
	bool obeys; /* all of them */
	bool handrail, guard; /* wanted by the rule set */
	struct step_row *rows;
	size_t row_count;
	int64_t overlap_um; /* of a unit under the next one; negative: so much of a tread is open */
	int64_t other_risers; /* a number that the rules allow and that suits the unit better; 0
	                         none */
	struct step_stack stack; /* of units */
	int64_t deep; /* built: rows of slabs in the depth of a tread */
	int64_t last_deep_um; /* built: depth of the last of them, cut; 0: whole */
	struct step_order order; /* units, or riser pieces */
	struct step_order slabs; /* built: of the treads */
	struct step_piece *pieces;
	size_t piece_count;
	struct handling handling; /* of a unit, or of a tread slab */
	double mass_kg; /* of all units, or tread slabs, to buy; 0 unknown */
	double bed_m3; /* under units or treads; the strap gaps left out */
	double landing_m2;
	double flank_m, flank_m2; /* of one wall: length, and area of its side, stepped as the
	                             treads are, over the level of the foot */
	int64_t price_minor; /* of units, or tread slabs; -1 unknown */
	const char *notes[10];
	size_t note_count;
};

struct steps_result {
	struct flight *flights; /* as in the plan */
	size_t count;
};

/* The number of risers is the plan's; where that is 0, the fewest that obey the rule set's riser,
 * two risers and a going, and pitch; or, where only the going stands in the way, the fewest whose
 * riser obeys. Without a rule "riser_max": the number whose riser is nearest to the unit on its
 * bed. Never a rounded one: where no whole number obeys, the flight's fault says between which it
 * lies. */
enum status steps_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct steps_result *out, struct error *err);

/* Whether the largest and the smallest of these risers differ by no more than riser_spread_max;
 * true without that rule. */
bool risers_alike(const struct rules *rules, const int64_t *riser_um, size_t count);

const char *steps_piece_name(const struct plan_steps *steps); /* "step unit", "tread slab" */

#endif
