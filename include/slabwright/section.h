/* section.h - the paving taken apart: the field, runs of border courses, and zones.
 *
 * Each section is a part of the paving with one laying and a pattern frame of its own. Border
 * courses are taken off along their edges first, course by course; zones are cut out of what is
 * left, one after the other; the field is the rest. Neighbours share their common edge exactly.
 * Slabs that are the same in every way are one stock, whichever sections they are laid in. */
#ifndef SLABWRIGHT_SECTION_H
#define SLABWRIGHT_SECTION_H

#include "slabwright/cutplan.h"
#include "slabwright/lay.h"

enum section_kind { SECTION_FIELD, SECTION_BORDER, SECTION_ZONE };

struct section {
	enum section_kind kind;
	const char *name; /* "field", "border along edge 3", "zone 2, gravel" */
	size_t number; /* of its border or zone in the plan, from 0 */
	size_t edge; /* of a border: the edge it runs along, over the whole plan from 0 */
	int course; /* of a border: 0 along the edge, 1 behind that */
	bool paved; /* false: no slabs, and nothing below is set but area and region */
	double area_m2; /* of the field with the gaps along its edges; all add up to the outline's
	                 */
	double shared_m; /* of a zone: its edges within the paving; those between two zones are the
	                    first one's */
	struct region region; /* in the plan's frame */
	int64_t level_um; /* of its surface over the plan's */
	struct plan_laying
	        laying; /* in force; of a border its slab, the variant's kerf and so on */
	const struct strip *strip; /* of a border, else NULL */
	double stretch; /* of a border on a curve: u of its frame over u of its strip */
	bool curved, wedges; /* on a curve; its slabs are cut to wedges */
	double wide_joint_um; /* on a curve: the joint at the wide end of a slab */
	struct region frame_region; /* what is laid, in its pattern frame */
	struct laying laid; /* pieces are among the paving's */
	size_t stock[PATTERN_PARTS]; /* of each of the pattern's sizes */
};

/* A slab as it is bought. */
struct stock_slab {
	struct plan_slab slab; /* name "" and no price for one of a bond of several sizes */
	int64_t length_um, width_um; /* the slab itself */
	int64_t whole;
	double thumb; /* area over coordinating area, slabs; no allowance */
	size_t section; /* the first that takes it */
	int64_t share; /* of a mix: how many a pack holds; else 0 */
};

/* All that is laid. */
struct paving {
	struct section *sections; /* the field first, then borders, then zones */
	size_t section_count;
	struct stock_slab *stocks;
	size_t stock_count;
	int64_t whole, cut, sliver, made_up; /* slivers are among the cut */
	double pieces_area_m2; /* of all of them, whole ones too */
	struct piece *pieces; /* not the whole ones; section by section */
	size_t piece_count;
};

/* Lays the plan. `region` is the outline's, `area_m2` the paving's. Refuses (STATUS_PLAN) a border
 * wider than the paving or round too tight a curve, zones that overlap or lie outside, and what
 * lay_region refuses, naming the section. Everything in *out lives in mem. */
enum status paving_lay(struct arena *mem, const struct plan *plan, const struct region *region,
        double area_m2, struct paving *out, struct error *err);

/* A stock as the saw sees it. */
struct cut_stock paving_stock(
        const struct paving *paving, const struct plan_laying *laying, size_t stock);

/* The same paving with the field laid another way; borders and zones stay, and so do the numbers of
 * stocks as long as slab, bond and sizes do. *from must outlive *out. */
enum status paving_lay_field(struct arena *mem, const struct paving *from,
        const struct plan_laying *laying, struct paving *out, struct error *err);

/* The slabs that pieces are cut from, by the paving's stocks, with the variant's kerf and rule. */
enum status paving_cuts(struct arena *mem, const struct paving *paving,
        const struct plan_laying *laying, struct cutplan *out, struct error *err);

/* The paving with only those pieces that are cut from stocks marked in stocks[]: paving_cuts then
 * says nothing of the others. */
enum status paving_of_stocks(struct arena *mem, const struct paving *from, const bool *stocks,
        struct paving *out, struct error *err);

/* The search for a better one, from *cuts on: cut_search_begin. */
enum status paving_search(struct arena *mem, const struct paving *paving,
        const struct plan_laying *laying, const struct cutplan *cuts, struct cut_search **out,
        struct error *err);

/* A point of the plan in the section's pattern frame, and back. */
struct point section_from_plan(const struct section *section, struct point p);
struct point plan_from_section(const struct section *section, struct point p);

/* The section that holds a point of the plan; NULL for none: outside, or in a gap. */
const struct section *section_at(const struct paving *paving, struct point p);

/* The section of a piece of the paving. */
const struct section *section_of_piece(const struct paving *paving, const struct piece *piece);

#endif
