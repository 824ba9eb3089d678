/* plan_doc.h - plans and their parts as JSON: the members of the exchange format. */
#ifndef SLABWRIGHT_STORE_PLAN_DOC_H
#define SLABWRIGHT_STORE_PLAN_DOC_H

#include "doc.h"

#include <stddef.h>

/* A variant of a document. */
struct variant_doc {
	const char *uuid; /* "" when not given */
	const char *notes; /* "" none */
	bool archived;
	struct plan plan; /* with the variant's name */
};

/* What is bought along one kind of edge. */
struct edging_doc {
	enum edge_kind kind;
	struct plan_edging edging;
};

extern const struct shape variant_shape; /* struct variant_doc */
extern const struct shape slab_shape; /* struct plan_slab */
extern const struct shape pattern_shape; /* struct plan_laying: what a zone's says */
extern const struct shape repeat_shape; /* struct plan_repeat */
extern const struct shape edging_shape; /* struct edging_doc */
extern const struct edging_doc edging_defaults;
extern const struct shape node_shape; /* struct plan_node */
extern const struct shape ring_shape; /* struct plan_ring */
extern const struct plan_node node_defaults;
extern const struct plan_ring ring_defaults;
extern const struct words kind_words;

/* What stands beside the paving. The members water, site, planters, steps and costs of a plan that
 * lies at an offset in a struct; the same of a struct plan, together and one by one. Defaults, of
 * which nothing is written, are those of plan_init. */
enum { BESIDE_WATER, BESIDE_SITE, BESIDE_PLANTERS, BESIDE_STEPS, BESIDE_COSTS, BESIDE_PARTS };
#define BESIDE_FIELDS(base)                                                                        \
	{ "water", FIELD_OBJECT, 0, (base) + offsetof(struct plan, water),                         \
		.shape = &water_shape },                                                           \
	        { "site", FIELD_OBJECT, 0, (base) + offsetof(struct plan, site),                   \
		        .shape = &site_shape },                                                    \
	        { "planters", FIELD_LIST, 0, (base) + offsetof(struct plan, planters),             \
		        .list = &planter_list, .init = planter_begin },                            \
	        { "steps", FIELD_LIST, 0, (base) + offsetof(struct plan, steps),                   \
		        .list = &steps_list, .init = steps_begin },                                \
	{                                                                                          \
		"costs", FIELD_OBJECT, 0, (base) + offsetof(struct plan, costs),                   \
		        .shape = &costs_shape                                                      \
	}
extern const struct shape beside_shape; /* struct plan */
struct shape beside_part(int part);

/* Reads a document that the store keeps. STATUS_STORE, with the place of the fault, for one that is
 * damaged. */
enum status kept_read(struct store *s, const char *text, struct arena *mem,
        const struct shape *shape, void *to, struct error *err);

extern const struct shape water_shape, rain_shape; /* struct plan_water, plan_rain */
extern const struct shape costs_shape; /* struct plan_costs */
extern const struct shape site_shape; /* struct plan_site */
extern const struct shape point_shape; /* struct plan_point */
extern const struct shape block_shape; /* struct plan_block */
extern const struct shape step_unit_shape; /* struct plan_steps: its unit */
extern const struct list border_list, planter_list, steps_list;
extern const struct list mix_size_list; /* struct plan_mix */
extern const struct words bed_words;
void border_begin(void *border);
void planter_begin(void *planter);
void steps_begin(void *steps);

/* Members that read and write themselves: a plan's rings, its laying, surface and ground, its list
 * of zones (nothing for an empty one); and corners without their edges. */
enum status outline_read(struct reader *r, const struct doc *from, void *plan);
void outline_write(struct json *j, const char *name, const void *plan);
enum status laying_read(struct reader *r, const struct doc *from, void *laying);
void laying_write(struct json *j, const char *name, const void *laying);
enum status surface_read(struct reader *r, const struct doc *from, void *surface);
void surface_write(
        struct json *j, const char *name, const void *surface); /* nothing for the default */
enum status ground_read(struct reader *r, const struct doc *from, void *ground);
void ground_write(
        struct json *j, const char *name, const void *ground); /* nothing for the default */
enum status zones_read(struct reader *r, const struct doc *from, void *plan);
void zones_write(struct json *j, const char *name, const void *plan);
enum status corners_read(struct reader *r, const struct doc *from, void *ring);
void corners_write(struct json *j, const char *name, const void *ring);
void edging_write(
        struct json *j, const char *name, enum edge_kind kind, const struct plan_edging *e);

/* The defaults of everything: as plan_init, uuid "". */
void variant_doc_init(struct variant_doc *v);
void variant_doc_write(struct json *j, const struct variant_doc *v);

/* What two plans differ in, by the members of a variant: "outline, laying"; "" where they say the
 * same, names aside. NULL when memory is gone. */
const char *plan_parts_differ(struct arena *mem, const struct plan *a, const struct plan *b);

/* A member that holds a UUID: reads it to lower case; writes one that is not "". */
enum status uuid_read(struct reader *r, const struct doc *from, void *to);
void uuid_write(struct json *j, const char *name, const void *from);
/* Likewise notes; nothing for empty ones. */
enum status notes_read(struct reader *r, const struct doc *from, void *to);
void notes_write(struct json *j, const char *name, const void *from);

/* An edit as JSON text (the caller's json), and back: everything it points to lives in the reader's
 * arena. */
void edit_write(struct json *j, const struct edit *e);
enum status edit_read(struct reader *r, const char *text, struct edit *e);

#endif
