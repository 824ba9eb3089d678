/* plan_rows.h - a plan as rows: written part by part, inside the caller's transaction. */
#ifndef SLABWRIGHT_STORE_PLAN_ROWS_H
#define SLABWRIGHT_STORE_PLAN_ROWS_H

#include "sql.h"

#define MOST_RINGS 10000 /* of a plan; openings of a document */
#define MOST_CORNERS 100000 /* of a plan, over all its rings and zones */

/* Writes a whole plan for a variant that has no rows yet. */
enum status plan_insert(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err);

/* Writes what the edit has changed; plan is as it is after the edit. */
enum status plan_update(struct store *s, int64_t variant, const struct plan *plan,
        const struct edit *edit, struct error *err);

/* Refuses what must never stand in the store: see store_edit. */
enum status edit_check(
        struct store *s, const struct plan *plan, const struct edit *edit, struct error *err);

/* The corners of a plan that MOST_CORNERS limits. */
size_t corner_count(const struct plan *plan);

/* --- columns that several tables have --- */

/* A slab, after its name; and the slab and bond of a laying. Lists of columns, of marks to bind
 * them, and the values in their order. */
#define SLAB_COLUMNS                                                                               \
	"length_um, width_um, thickness_um, joint_um, size, directional, pack, density_kg_m3, "    \
	"price_minor"
#define SLAB_MARKS "?, ?, ?, ?, ?, ?, ?, ?, nullif(?, -1)"
#define SLAB_VALUES(b)                                                                             \
	INT((b)->length_um), INT((b)->width_um), INT((b)->thickness_um), INT((b)->joint_um),       \
	        TEXT(size_name((b)->size)), INT((b)->directional ? 1 : 0), INT((b)->pack),         \
	        INT((b)->density_kg_m3), INT((b)->price_minor)
#define PATTERN_COLUMNS                                                                            \
	"slab_name, " SLAB_COLUMNS ", bond, offset, along, rotation_udeg, start_x_um, start_y_um"
#define PATTERN_MARKS "?, " SLAB_MARKS ", ?, ?, ?, ?, ?, ?"
#define PATTERN_VALUES(l)                                                                          \
	TEXT((l)->slab.name), SLAB_VALUES(&(l)->slab), TEXT(bond_name((l)->bond)),                 \
	        REAL((l)->offset), TEXT(along_name((l)->along)), INT((l)->rotation_udeg),          \
	        INT((l)->start_x_um), INT((l)->start_y_um)
/* What is bought along edges of a kind, after the kind. */
#define EDGING_COLUMNS                                                                             \
	"name, unit_um, joint_um, depth_um, mitred, least_um, corner_um, profile, foot_um, "       \
	"height_um, top_um, bed, cement_kg_m3, strip_um, strip_beyond_um, haunch_um, held_um, "    \
	"haunch_both, density_kg_m3, price_minor"
#define EDGING_MARKS "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, nullif(?, -1)"
#define EDGING_VALUES(e)                                                                           \
	TEXT((e)->name), INT((e)->unit_um), INT((e)->joint_um), INT((e)->depth_um),                \
	        INT((e)->mitred ? 1 : 0), INT((e)->least_um), INT((e)->corner_um),                 \
	        TEXT(edging_profile_name((e)->profile)), INT((e)->foot_um), INT((e)->height_um),   \
	        INT((e)->top_um), TEXT(bed_mix_name((e)->bed)), INT((e)->cement_kg_m3),            \
	        INT((e)->strip_um), INT((e)->strip_beyond_um), INT((e)->haunch_um),                \
	        INT((e)->held_um), INT((e)->haunch_both ? 1 : 0), INT((e)->density_kg_m3),         \
	        INT((e)->price_minor)
enum { SLAB_WIDTH = 10, PATTERN_WIDTH = SLAB_WIDTH + 6 }; /* columns, the slab's name too */

/* Such columns of the present row, from `first` on, which is the slab's name. */
enum status slab_columns(struct store *s, sqlite3_stmt *q, int first, struct arena *mem,
        struct plan_slab *out, struct error *err);
enum status pattern_columns(struct store *s, sqlite3_stmt *q, int first, struct arena *mem,
        struct plan_laying *out, struct error *err);

enum status edging_columns(struct store *s, sqlite3_stmt *q, int first, struct arena *mem,
        struct plan_edging *out, struct error *err);

/* A word column as the number it stands for; STATUS_STORE, naming what it should be, where it
 * stands for none. */
enum status word_column(struct store *s, sqlite3_stmt *q, int column, int (*parse)(const char *),
        const char *what, int *value, struct error *err);
enum status row_damaged(struct store *s, const char *what, const char *word, struct error *err);

/* One more corner at the end of a ring that is being read; *capacity is its room. */
enum status ring_append(struct arena *mem, struct plan_ring *ring, size_t *capacity,
        struct plan_node node, struct error *err);

/* --- borders and zones --- */

/* Writes a plan's borders, or zones, in the place of those the variant had; reads them. */
enum status border_rows_write(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err);
enum status border_rows_read(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err);
enum status zone_rows_write(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err);
enum status zone_rows_read(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err);

/* --- what stands beside the paving --- */

/* Writes one part (plan_doc.h) in the place of the one the variant had, or all of them for a
 * variant that has none; reads them. */
enum status beside_row_write(
        struct store *s, int64_t variant, const struct plan *plan, int part, struct error *err);
enum status beside_rows_insert(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err);
enum status beside_rows_read(
        struct store *s, int64_t variant, struct arena *mem, struct plan *plan, struct error *err);

/* --- repeats and mixes --- */

/* Whose a repeat or mix is: a zone's by its number from 1, with zone 0 the variant's own laying's,
 * with both 0 the catalogue's. */
struct laying_id {
	int64_t variant, zone;
};

/* Writes one in the place of the one the laying had, or one more of the catalogue, inside the
 * caller's transaction. Empty ones are not kept, and read as empty. */
enum status repeat_write(
        struct store *s, struct laying_id of, const struct plan_repeat *repeat, struct error *err);
enum status mix_write(struct store *s, struct laying_id of, const char *name,
        const struct plan_mix *mix, struct error *err);
enum status repeat_of(struct store *s, struct laying_id of, struct arena *mem,
        struct plan_repeat *out, struct error *err);
enum status mix_of(struct store *s, struct laying_id of, struct arena *mem, struct plan_mix *out,
        struct error *err);

/* The catalogue's repeat of that name; an empty one when there is none. */
enum status repeat_named(struct store *s, const char *name, struct arena *mem,
        struct plan_repeat *out, struct error *err);

/* --- values --- */

/* Refuses a rule set that is not in the store, naming those that are. `place` stands before the
 * message. */
enum status rule_set_check(struct store *s, const char *name, const char *place, struct error *err);

/* Words of the exchange format for the smaller enumerations. */
const char *size_name(enum size_meaning size);
const char *edge_rule_name(enum edge_rule rule);
const char *along_name(enum along along);
const char *envelope_name(enum envelope envelope);
int size_parse(const char *word); /* -1 for a word that is none, as the others */
int along_parse(const char *word);
int edge_rule_parse(const char *word);
int envelope_parse(const char *word);

#endif
