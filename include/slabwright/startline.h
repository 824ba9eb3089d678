/* startline.h - where the first slab goes: a search over the starts of the field's laying.
 *
 * Only the start of the field moves, and where it is asked for the bond is turned by 90 degrees as
 * well; borders and zones stay. Starts are ranked by fewest slivers, then fewest slabs to order,
 * fewest cuts, widest smallest piece, best balance.
 *
 * Where every edge of the field runs along an axis of a pattern that repeats, slivers and cuts can
 * change only where a side of a slab comes to a corner of the field, or to within the fill or the
 * sliver width of one: finitely many places in x and in y. Between two of them the search splits up
 * the moves, and leaves out those of which a bound says that no start among them is better; so it
 * ends with an answer that is proven. Starts nearer than START_GRAIN_UM to such a place, but not on
 * it, are taken as those beside them: what they differ in is less than a blade can do. Elsewhere
 * starts are sampled by a grid that gets finer, and refined round the best. */
#ifndef SLABWRIGHT_STARTLINE_H
#define SLABWRIGHT_STARTLINE_H

#include "slabwright/takeoff.h"

#define START_ROWS 12
#define START_GRAIN_UM INT64_C(500)
#define START_WIDTH_UM INT64_C(4000)
#define START_NO_PIECE INT64_MAX

/* A start, and what the plan comes to with it: the figures of its take-off, whose cut plan has been
 * searched for fewer slabs where it was not proven least (takeoff_improve; two hundred thousand
 * looks at most). */
struct start_row {
	int64_t x_um, y_um; /* in the plan */
	int64_t turn_udeg; /* to add to the bond's rotation: 0 or 90 degrees */
	int64_t slivers, cuts; /* of the whole variant */
	int64_t slabs; /* to order, of the whole variant */
	int64_t smallest_um; /* shorter side of the field's narrowest cut piece; START_NO_PIECE
	                        where none is cut */
	/* How far the narrowest piece cut at the left differs in width from the one cut at the
	 * right, and the same of bottom and top, added up; left as in the pattern frame. Where one
	 * side has none, the widest slab stands for it. Pieces cut on both sides do not count. */
	int64_t balance_um;
	bool present; /* the plan's own start */
};

/* The best so far, best first. Two rows differ in the turn or lie more than an eighth of the bond's
 * repeat apart, or more than 1/32 where they differ in slivers, slabs or cuts. */
struct start_list {
	struct start_row rows[START_ROWS];
	size_t count;
	struct start_row now; /* the present start, whether it is among the rows or not */
	bool done; /* the search has ended: steps change nothing any more */
	bool exact; /* no start comes before rows[0]: proven; where pieces may be turned by 90
	               degrees, but for how wide the smallest is, within START_WIDTH_UM */
	int64_t least_slabs; /* with as few slivers as rows[0] no start orders fewer: proven; 0: not
	                        known, or not yet */
	int64_t tried; /* starts laid so far */
	int64_t grid_um, fine_um; /* where sampled: of the grid done last (0: none yet), and the
	                             finest step round the best */
};

/* The search lives in mem; the take-off must outlive it. STATUS_PLAN, with the take-off's fault,
 * where it is not ready. */
struct start_search;
enum status startline_begin(struct arena *mem, const struct takeoff *t, bool turns,
        struct start_search **out, struct error *err);

/* Goes on for about so many units of work, a microsecond or so each; at least one start is tried.
 * The same steps give the same list however they are sliced. Memory in mem grows only with what is
 * still to be looked at. On STATUS_MEMORY the list stays as it was, and the search is done, not
 * exact. */
enum status startline_step(struct start_search *s, int64_t work, struct error *err);

/* The rotation of a bond turned by a row's turn_udeg. */
int64_t startline_rotation(int64_t rotation_udeg, int64_t turn_udeg);

bool startline_done(const struct start_search *s);
void startline_best(const struct start_search *s, struct start_list *out);

#endif
