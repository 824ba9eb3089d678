/* plan_doc.h - plans and their parts as JSON: the members of the exchange format. */
#ifndef SLABWRIGHT_STORE_PLAN_DOC_H
#define SLABWRIGHT_STORE_PLAN_DOC_H

#include "doc.h"

/* A variant of a document. */
struct variant_doc {
	const char *uuid; /* "" when not given */
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
extern const struct shape node_shape; /* struct plan_node */
extern const struct shape ring_shape; /* struct plan_ring */
extern const struct plan_node node_defaults;
extern const struct plan_ring ring_defaults;
extern const struct words kind_words;

/* Members that read and write themselves: a plan's rings, its laying, surface and ground, its lists
 * of borders and zones (nothing for an empty one); and corners without their edges. */
enum status outline_read(struct reader *r, const struct doc *from, void *plan);
void outline_write(struct json *j, const char *name, const void *plan);
enum status laying_read(struct reader *r, const struct doc *from, void *laying);
void laying_write(struct json *j, const char *name, const void *laying);
enum status mix_sizes_read(struct reader *r, const struct doc *from, void *plan_mix);
enum status surface_read(struct reader *r, const struct doc *from, void *surface);
void surface_write(
        struct json *j, const char *name, const void *surface); /* nothing for the default */
enum status ground_read(struct reader *r, const struct doc *from, void *ground);
void ground_write(
        struct json *j, const char *name, const void *ground); /* nothing for the default */
enum status borders_read(struct reader *r, const struct doc *from, void *plan);
void borders_write(struct json *j, const char *name, const void *plan);
enum status zones_read(struct reader *r, const struct doc *from, void *plan);
void zones_write(struct json *j, const char *name, const void *plan);
enum status corners_read(struct reader *r, const struct doc *from, void *ring);
void corners_write(struct json *j, const char *name, const void *ring);
void edging_write(
        struct json *j, const char *name, enum edge_kind kind, const struct plan_edging *e);

/* The defaults of everything: as plan_init, uuid "". */
void variant_doc_init(struct variant_doc *v);
void variant_doc_write(struct json *j, const struct variant_doc *v);

/* A member that holds a UUID: reads it to lower case; writes one that is not "". */
enum status uuid_read(struct reader *r, const struct doc *from, void *to);
void uuid_write(struct json *j, const char *name, const void *from);

/* An edit as JSON text (the caller's json), and back: everything it points to lives in the reader's
 * arena. */
void edit_write(struct json *j, const struct edit *e);
enum status edit_read(struct reader *r, const char *text, struct edit *e);

#endif
