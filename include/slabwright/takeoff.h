/* takeoff.h - the whole answer for one variant.
 *
 * A plan whose outline is not fit to be paved yet is an answer too: `fault` says why, and what can
 * be told of it is told. Everything lives in the arena that is passed in. */
#ifndef SLABWRIGHT_TAKEOFF_H
#define SLABWRIGHT_TAKEOFF_H

#include "slabwright/asbuilt.h"
#include "slabwright/drainage.h"
#include "slabwright/earth.h"
#include "slabwright/edging.h"
#include "slabwright/kerb.h"
#include "slabwright/levelling.h"
#include "slabwright/materials.h"
#include "slabwright/planter.h"
#include "slabwright/price.h"
#include "slabwright/schedule.h"
#include "slabwright/section.h"
#include "slabwright/setout.h"
#include "slabwright/steps.h"
#include "slabwright/surface.h"

struct store;

/* What is ordered of one slab: a stock of the paving. */
struct order_line {
	const struct plan_slab *slab; /* name "" and no price for one of a bond of several sizes */
	int64_t length_um, width_um; /* the slab itself */
	int64_t needed, allowance, slabs; /* as in struct order */
	int64_t rule_of_thumb; /* area * slabs a square metre + 5 %, rounded up */
	double slab_mass_kg; /* 0 unknown */
	int64_t left_over; /* coursed random: of the packs ordered, not needed */
	int64_t packs; /* coursed random: of the mix it belongs to; else 0 */
	int64_t price_minor, thumb_price_minor; /* -1 unknown */
};

struct order {
	int64_t slabs; /* to order: whole + for cuts + allowance, up to the pack */
	int64_t needed; /* whole + for cuts */
	int64_t allowance; /* breakage: share of needed rounded up, at least 1 of each size */
	int64_t rule_of_thumb; /* area / coordinating area + 5 %, rounded up */
	int64_t price_minor; /* of slabs; -1 where one's is not known */
	int64_t thumb_price_minor;
	double slab_mass_kg; /* the heaviest slab; 0 unknown */
	double mass_kg; /* all slabs ordered; 0 where one's is not known */
	struct order_line *lines; /* by the paving's stocks */
	size_t line_count;
	int64_t packs; /* coursed random: packs of the mixes that hold what is needed and the
	                  allowance; else 0 */
};

/* What is measured on site, before and after. */
struct site_result {
	bool has_book; /* it could be reduced; else book_fault says why, "" for an empty book */
	struct book_result book;
	struct error book_fault;
	bool has_setout; /* else setout_fault says why */
	struct setout setout;
	struct error setout_fault;
	bool has_built; /* something was measured */
	struct asbuilt built;
};

/* What it costs and how long it takes; of a take-off that is not ready, or with costs that
 * costs_check refuses, neither. */
struct costing {
	bool has_price; /* else price_fault says why */
	struct price price;
	struct error price_fault;
	bool has_schedule; /* else schedule_fault says why */
	struct schedule schedule;
	struct error schedule_fault;
};

struct takeoff {
	struct plan plan; /* what was worked out; where the plan has no instrument, with that of its
	                     levelling book */
	struct rules rules; /* with which limits */
	bool ready; /* false: `fault` says what is missing, and only what comes before `region` is
	               set */
	bool surface_ready; /* edging, steps and surface are worked out, whatever became of the
	                       laying */
	struct error fault;
	double area_m2, perimeter_m, opening_edges_m;
	struct region region; /* in the plan's frame */
	struct paving laid;
	struct cutplan cuts;
	struct cut_search *search; /* for a better one; NULL: not begun */
	bool searched; /* it has ended, or there is nothing to search */
	struct order order;
	struct edging_result edging;
	struct kerb_result kerbs; /* how the edging stands: bed, mass, string lines */
	struct steps_result steps;
	struct surface_result surface;
	struct drainage drainage;
	struct site_result site;
	struct earth_result earth;
	struct planters_result planters; /* worked out whatever became of the outline */
	/* The level sheet: the surface's points, pegs, ends of kerbs (their top, over the bottom of
	 * their trench), corners of planters (the wall's top, over the bottom of its footing), and
	 * nosings of steps (over the bed of their row), in this order. */
	struct level_point *levels;
	size_t level_count;
	struct materials materials; /* of a take-off that is not ready, the planters' */
	struct costing costing;
};

/* Works out a plan built in memory. The plan and rules must outlive *out. Returns STATUS_MEMORY, or
 * OK with out->ready telling. */
enum status takeoff_plan(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct takeoff *out, struct error *err);

/* Goes on looking for a cut plan of fewer slabs, and a better bound, for about so many looks (a
 * hundred thousand take some milliseconds); cuts and order then hold the best so far. False when
 * that has ended. mem is that of the take-off, at one place from the first call on; without memory
 * the search ends. */
bool takeoff_improve(struct arena *mem, struct takeoff *t, int64_t looks);

/* Works out t->order from t->laid, t->cuts' totals by stock and t->plan's laying alone. */
enum status takeoff_order(struct arena *mem, struct takeoff *t, struct error *err);

/* Reads the variant's plan and rule set from the store and works it out. */
enum status takeoff_variant(struct arena *mem, struct store *store, int64_t variant,
        struct takeoff *out, struct error *err);

#endif
