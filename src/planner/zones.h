/* zones.h - zones in the planner: their rings among the others, and which part of the paving is
 * worked on at Laying and Order: the field, or one zone. */
#ifndef SLABWRIGHT_PLANNER_ZONES_H
#define SLABWRIGHT_PLANNER_ZONES_H

#include "app.h"

/* --- rings, numbered through as edit.h does --- */

/* The zone whose ring that is; SIZE_MAX for the outline and openings. */
size_t zone_of_ring(const struct plan *plan, size_t ring);
/* How many rings have corners to be chosen at this stage: those of zones have at Outline only. */
size_t rings_here(const struct app *app);
/* The corner after or before that one, over all rings that have corners here; false for none. */
bool step_corner(const struct app *app, bool forth, size_t *ring, size_t *at);
/* "the outline", "opening 1", "zone 1"; and " of zone 1", "" where the ring is none. */
char *ring_words(const struct plan *plan, size_t ring, char buf[40]);
char *of_zone(const struct plan *plan, size_t ring, char buf[40]);

/* --- the part worked on --- */

/* The zone worked on; SIZE_MAX for the field. */
size_t zone_here(const struct app *app);
const struct plan_laying *laying_here(const struct app *app);
/* Whether the part has slabs; the second shows why not. */
bool paved_here(const struct app *app);
bool slabs_here(struct app *app);
/* A part that there is: one that went, or is being drawn again, is the field. */
void keep_part_in_range(struct app *app);
/* "Field", "Zone 1, path strip", in the frame's memory. */
const char *zone_title(struct app *app, size_t zone);

/* The zone's section of the paving; NULL while there is none: it is being drawn, or no figures. */
const struct section *zone_section(const struct app *app, size_t zone);

/* --- edits --- */

bool edit_zones(struct app *app, const char *label, struct plan_zone *zones, size_t count);
/* One zone replaced. */
bool edit_zone(struct app *app, const char *label, size_t at, const struct plan_zone *zone);
/* The laying of the part worked on, in which what is known of its slab was changed: the other parts
 * that have the same slab get it too. */
bool edit_slab_everywhere(struct app *app, const char *label, const struct plan_laying *laying);

/* --- places --- */

/* The middle of the longest of some level lines across a region, and how long it is; false for a
 * region that has none. */
bool region_middle(struct arena *mem, const struct region *r, struct point *at, double *width_um);
/* What a zone covers, as far as it is known: its part of the paving, else what its corners span. */
bool zone_region(const struct app *app, struct arena *mem, size_t zone, struct region *out);
/* A closed zone's ring with its arcs, where the plan is worked out; else false. */
bool zone_outline(const struct app *app, struct arena *mem, size_t zone, struct ring *out);

/* --- act_zone.c --- */

void act_zone(struct app *app, int key);
void act_next_part(struct app *app, int key);
void act_part_here(struct app *app, int key);
/* After a zone's ring was closed: asks for its name, and what it is paved with. */
void zone_closed(struct app *app, size_t zone);
bool delete_zone(struct app *app, size_t zone);
/* Rows of the list of values that only a zone has, numbered from there, and what is done with one.
 */
enum { FIRST_ZONE_ROW = 1000 };
void zone_rows(struct app *app, size_t zone);
void zone_row_chosen(struct app *app, const struct list_row *row);

/* --- pane_zone.c --- */

struct pane;
/* The zone worked on, beside its slab: its level, or that it has no slabs. */
void pane_zone(struct app *app, struct pane *p);
/* At Outline, the zone whose ring is chosen. */
void pane_zone_ring(struct app *app, struct pane *p, size_t zone);
/* Area, whole and cut of each part, where there are several. */
void pane_parts(struct app *app, struct pane *p);

#endif
