/* edging.h - lengths along the edges, by kind, and the units they take. */
#ifndef SLABWRIGHT_EDGING_H
#define SLABWRIGHT_EDGING_H

#include "slabwright/geom.h"
#include "slabwright/pack.h"

/* A cut piece. */
struct edging_piece {
	size_t edge; /* number over the whole plan, from 0 */
	int64_t length_um; /* along its longer side, a mitre included */
};

struct edging_line {
	enum edge_kind kind;
	double length_m;
	size_t edges;
	const char *unit_name; /* "" where nothing is bought by the piece */
	int64_t unit_um; /* 0 likewise */
	int64_t least_um; /* no piece shorter: asked for */
	int64_t whole; /* units laid whole */
	int64_t cut; /* pieces cut at the ends of edges */
	int64_t shared; /* edges whose last whole unit and rest became two cut pieces, lest the rest
	                   be shorter than the least */
	int64_t too_short; /* pieces shorter than the least all the same: their edges are short */
	int64_t units; /* to buy: whole, and those the cut pieces come from */
	int64_t bound; /* no fewer can do: proven. units == bound: least possible */
	const char *reason; /* what proves the bound; "" where nothing is bought */
	size_t outer_corners, inner_corners; /* of the paving, where two such edges meet */
	size_t corner_pieces; /* bought for outer right angles, besides the units */
	size_t no_room; /* edges shorter than the legs of the corner pieces at their ends: these
	                   are cut */
	struct edging_piece *pieces; /* the cut ones, in order of the edges */
	struct pack_plan cuts; /* which of them come from which unit */
};

struct edging_result {
	struct edging_line *lines; /* kinds that occur, in the order of enum edge_kind */
	size_t count;
};

/* An edge of length L takes floor((L + joint) / (unit + joint)) whole units and one piece for what
 * is left, if more than the joint is left.
 *
 * The first unit is ground to fit: where what is left is shorter than the least length, the last
 * whole unit and it are shared out anew, one piece of the least length and one of the rest, if the
 * rest is no shorter than that. An edge without a whole unit stays as it is.
 *
 * Where two edges of the kind meet and the depth is known, a mitred corner adds to both what
 * edging_mitre_um says. Else the run that comes in goes through to the outer side of the one that
 * leaves, measured along its longer side; corners that turn by less than 45 degrees are mitred all
 * the same. Inner corners add nothing. A corner piece (edging_takes_corner) takes its leg, measured
 * outside, less the depth, and a joint from both.
 *
 * The work is an iterator, as in pack.h: edging_begin plans at once, edging_step betters plan or
 * proof, edging_best gives the best so far. Everything lives in mem; the plan must outlive the
 * search. */
struct edging_search;
enum status edging_begin(struct arena *mem, const struct plan *plan, int64_t kerf_um,
        struct edging_search **out, struct error *err);
enum status edging_step(struct edging_search *s, int64_t work, struct error *err);
bool edging_done(const struct edging_search *s); /* steps would change nothing any more */
enum status edging_best(struct edging_search *s, struct edging_result *out, struct error *err);

/* The edging at once, kerf_um what a cut takes from a unit. Stops after about
 * half a millisecond of work, which for up to 60 cut pieces a kind is nearly always enough for the
 * least possible. */
enum status edging_work_out(struct arena *mem, const struct plan *plan, int64_t kerf_um,
        struct edging_result *out, struct error *err);

/* --- along an edge --- */

/* By how much the edging turns round the corner before node `at`'s edge, radians, arcs by their
 * tangents: positive at an outer corner of the paving. `opening`: the paving lies outside the ring.
 */
double edging_turn_rad(const struct plan_ring *ring, size_t at, bool opening);

/* By how much it turns along the arc of node `at`'s edge, the same way; 0 straight. */
double edging_arc_rad(const struct plan_ring *ring, size_t at, bool opening);

/* tan(turn / 2) there: what a line outside grows by at that corner, for each um it is away from the
 * edge; negative at inner corners. A corner sharper than 30 degrees counts as one of 30. */
double edging_corner_growth(const struct plan_ring *ring, size_t at, bool opening);

/* How much longer than the edge a mitred unit's outer side is at that corner: depth times the
 * growth. 0 at inner corners, where the edge itself is the longer side. */
int64_t edging_mitre_um(const struct plan_ring *ring, size_t at, bool opening, int64_t depth_um);

/* Whether both edges at that corner are of one kind; and whether a corner piece is bought for it:
 * the kind has one, both edges are straight and it is an outer right angle within 1 degree. */
bool edging_meets_own(const struct plan_ring *ring, size_t at);
bool edging_takes_corner(const struct plan *plan, size_t ring, size_t at);

/* Length that units take along the edge, corners added or taken off; negative where corner pieces
 * take more than there is. */
int64_t edging_run_um(const struct plan *plan, size_t ring, size_t at);

/* A run as whole units and cut pieces, as told above. */
struct edging_split {
	int64_t whole;
	int cut;
	int64_t piece_um[2];
	bool shared; /* the last whole unit became a cut piece too */
};
struct edging_split edging_split(
        int64_t run_um, int64_t unit_um, int64_t joint_um, int64_t least_um);

#endif
