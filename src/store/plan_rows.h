/* plan_rows.h - a plan as rows: written part by part, inside the caller's transaction. */
#ifndef SLABWRIGHT_STORE_PLAN_ROWS_H
#define SLABWRIGHT_STORE_PLAN_ROWS_H

#include "sql.h"

#define MOST_CORNERS 100000 /* of a plan, over all its rings */

/* Writes a whole plan for a variant that has no rows yet. */
enum status plan_insert(
        struct store *s, int64_t variant, const struct plan *plan, struct error *err);

/* Writes what the edit has changed; plan is as it is after the edit. */
enum status plan_update(struct store *s, int64_t variant, const struct plan *plan,
        const struct edit *edit, struct error *err);

/* Refuses what must never stand in the store: see store_edit. */
enum status edit_check(
        struct store *s, const struct plan *plan, const struct edit *edit, struct error *err);

/* Repeats and mixes, inside the caller's transaction: a laying's, in the place of the one it had,
 * or with variant 0 one more of the catalogue. Empty ones are not kept, and read as empty. */
enum status repeat_write(
        struct store *s, int64_t variant, const struct plan_repeat *repeat, struct error *err);
enum status mix_write(struct store *s, int64_t variant, const char *name,
        const struct plan_mix *mix, struct error *err);
enum status repeat_of(struct store *s, int64_t variant, struct arena *mem, struct plan_repeat *out,
        struct error *err);
enum status mix_of(struct store *s, int64_t variant, struct arena *mem, struct plan_mix *out,
        struct error *err);

/* The catalogue's repeat of that name; an empty one when there is none. */
enum status repeat_named(struct store *s, const char *name, struct arena *mem,
        struct plan_repeat *out, struct error *err);

/* Refuses a rule set that is not in the store, naming those that are. `place` stands before the
 * message. */
enum status rule_set_check(struct store *s, const char *name, const char *place, struct error *err);

/* What is bought along edges: lengths within limits, a name that can stand. */
enum status edging_check(const struct plan_edging *edging, const char *place, struct error *err);

/* Words of the exchange format for the smaller enumerations. */
const char *size_name(enum size_meaning size);
const char *edge_rule_name(enum edge_rule rule);
const char *along_name(enum along along);
const char *envelope_name(enum envelope envelope);
int size_parse(const char *word); /* -1 for a word that is none, as the others */
int edge_rule_parse(const char *word);
int envelope_parse(const char *word);

#endif
