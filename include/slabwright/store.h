/* store.h - the project store: clients, their jobs, the jobs' variants, and every edit.
 *
 * One SQLite file (application_id and user_version set, WAL, mode 0600). Each call that changes
 * something is one transaction: when it returns STATUS_OK the change survives a killed process and
 * a power cut. Ids are the store's own; names come from people and may hold anything but NUL
 * (control characters are kept as they are; whoever shows them marks them). Names are 1 to 200
 * bytes of UTF-8. */
#ifndef SLABWRIGHT_STORE_H
#define SLABWRIGHT_STORE_H

#include "slabwright/edit.h"
#include "slabwright/rules.h"

struct store;

#define STORE_VERSION 5

enum store_mode {
	STORE_MAY_CREATE, /* made, with its folder, when it is not there */
	STORE_MUST_EXIST,
};

/* Opens a store; an older one is upgraded in a transaction after a copy beside it
 * (FILE.version-N-backup). A new one gets its catalogue and rule sets from the files in share_dir
 * (NULL: only the rule set "none"), an upgraded one the parts of the catalogue that it had not.
 * STATUS_STORE, naming the file and the remedy, for one that is not a store, is newer, read-only,
 * locked for more than 2 s, or cannot be made; what is not a store is left as it is. Several
 * handles and programs may have one store open. */
enum status store_open(struct store **out, const char *path, enum store_mode mode,
        const char *share_dir, struct error *err);
void store_close(struct store *s); /* NULL is fine */
const char *store_path(const struct store *s);

/* Whether another handle or program has written to the store since the last call, or since it was
 * opened. Costs next to nothing. */
enum status store_changed_elsewhere(struct store *s, bool *changed, struct error *err);

/* The usual place: $XDG_DATA_HOME/slabwright/projects.slabs or ~/.local/share/...; the two values
 * are those of the environment, NULL where unset. */
enum status store_usual_path(struct arena *mem, const char *xdg_data_home, const char *home,
        const char **path, struct error *err);

/* --- clients, jobs, variants --- */

struct store_entry {
	int64_t id;
	const char *uuid, *name;
	int64_t children; /* jobs of a client, variants of a job */
	const char *changed; /* UTC, ISO 8601 */
};
struct store_list {
	struct store_entry *items;
	size_t count;
};

enum status store_clients(
        struct store *s, struct arena *mem, struct store_list *out, struct error *err);
enum status store_jobs(struct store *s, int64_t client, struct arena *mem, struct store_list *out,
        struct error *err);
enum status store_variants(
        struct store *s, int64_t job, struct arena *mem, struct store_list *out, struct error *err);

/* A name that is taken among its siblings is refused (STATUS_PLAN). */
enum status store_client_add(struct store *s, const char *name, int64_t *id, struct error *err);
enum status store_job_add(
        struct store *s, int64_t client, const char *title, int64_t *id, struct error *err);
enum status store_variant_add(struct store *s, int64_t job, const char *name, int64_t *id,
        struct error *err); /* an empty plan */
enum status store_variant_copy(
        struct store *s, int64_t variant, const char *name, int64_t *id, struct error *err);
enum status store_client_rename(
        struct store *s, int64_t client, const char *name, struct error *err);
enum status store_job_rename(struct store *s, int64_t job, const char *title, struct error *err);
enum status store_variant_rename(
        struct store *s, int64_t variant, const char *name, struct error *err);

/* "client/job/variant" or a shorter path; in a name '/' is written "\/" and '\' is written "\\"
 * STATUS_USAGE for what is no path. STATUS_PLAN, saying which part is not there and
 * which names are, when nothing is found. Ids of parts not given are 0. */
struct store_place {
	int64_t client, job, variant;
	const char *client_name, *job_title, *variant_name;
};
enum status store_find(struct store *s, const char *path, struct arena *mem,
        struct store_place *out, struct error *err);
enum status store_place_of(struct store *s, int64_t variant, struct arena *mem,
        struct store_place *out, struct error *err);

/* --- plans and edits --- */

enum status store_plan(
        struct store *s, int64_t variant, struct arena *mem, struct plan *out, struct error *err);

/* Whether two plans say the same, their names aside. False, and *same unset, when memory is gone.
 */
bool store_plans_same(const struct plan *a, const struct plan *b, bool *same);

/* Applies the edit to the variant's plan and keeps it, with its inverse, as an undo row; what had
 * been undone can no longer be redone. The store refuses what edit_apply refuses and values that
 * the checks of plan.h refuse; whether the outline and zones are sound is for the caller to check
 * before. Of a zone's laying only what is the zone's own is kept, of one that is not paved nothing.
 * STATUS_STORE where the store's file was moved or removed since it was opened (this holds for all
 * that changes the store). */
enum status store_edit(
        struct store *s, int64_t variant, const struct edit *edit, struct error *err);

/* Takes back or repeats the last edit. *done is false when there is none; label (80 bytes) names
 * it. */
enum status store_undo(
        struct store *s, int64_t variant, bool *done, char label[80], struct error *err);
enum status store_redo(
        struct store *s, int64_t variant, bool *done, char label[80], struct error *err);
/* How many edits could be taken back and repeated. */
enum status store_undo_depth(
        struct store *s, int64_t variant, int64_t *undo, int64_t *redo, struct error *err);

/* --- catalogue and rule sets --- */

struct store_slabs {
	struct plan_slab *items;
	size_t count;
};
struct store_edgings {
	struct plan_edging *items;
	enum edge_kind *kinds; /* for which kind of edge each is */
	size_t count;
};
struct store_repeats {
	struct plan_repeat *items;
	size_t count;
};
struct store_mix {
	const char *name;
	struct plan_mix mix;
};
struct store_mixes {
	struct store_mix *items;
	size_t count;
};
struct store_names {
	const char **items;
	size_t count;
};
struct store_rains {
	struct plan_rain *items;
	size_t count;
};
struct store_blocks {
	struct plan_block *items;
	size_t count;
};
/* What a flight of steps is made of: the members of plan_steps that begin with unit_. */
struct store_step_unit {
	const char *name;
	int64_t length_um, depth_um, height_um;
	int64_t density_kg_m3; /* 0 unknown */
	int64_t price_minor; /* -1 unknown */
};
struct store_step_units {
	struct store_step_unit *items;
	size_t count;
};
enum status store_slabs(
        struct store *s, struct arena *mem, struct store_slabs *out, struct error *err);
enum status store_edgings(
        struct store *s, struct arena *mem, struct store_edgings *out, struct error *err);
enum status store_repeats(
        struct store *s, struct arena *mem, struct store_repeats *out, struct error *err);
enum status store_mixes(
        struct store *s, struct arena *mem, struct store_mixes *out, struct error *err);
enum status store_rains(
        struct store *s, struct arena *mem, struct store_rains *out, struct error *err);
enum status store_blocks(
        struct store *s, struct arena *mem, struct store_blocks *out, struct error *err);
enum status store_step_units(
        struct store *s, struct arena *mem, struct store_step_units *out, struct error *err);
enum status store_rule_sets(
        struct store *s, struct arena *mem, struct store_names *out, struct error *err);
enum status store_rules(
        struct store *s, const char *name, struct arena *mem, struct rules *out, struct error *err);

/* --- view state: small texts that the planner keeps between runs (cursor, zoom, stage) --- */

/* variant 0 is the planner's own. *text is "" when nothing was kept. */
enum status store_view_get(struct store *s, int64_t variant, const char *key, struct arena *mem,
        const char **text, struct error *err);
enum status store_view_set(
        struct store *s, int64_t variant, const char *key, const char *text, struct error *err);

/* --- exchange: the JSON document of slabwright(5) --- */

/* Checks the whole document, then writes it in one transaction. Clients and jobs with the same name
 * (or UUID) are the same; a variant whose UUID is there is refused, unless it is the same plan
 * (then nothing is done); one whose name is taken gets a number behind its name. STATUS_PLAN names
 * the place of the first fault
 * ("variants[0].outline.nodes[3].x: not a number") . The outline's soundness is checked by `sound`,
 * which may be NULL; where a zone is still being drawn it sees the plan without zones. *first is
 * the first variant of the document, *added how many were written. */
typedef enum status plan_sound_fn(const struct plan *plan, struct error *err);
enum status store_import(struct store *s, const char *json, size_t length, plan_sound_fn *sound,
        int64_t *first, size_t *added, struct error *err);

/* The document for a job, or for one variant of it when variant is not 0. Text in the arena. */
enum status store_export(struct store *s, int64_t job, int64_t variant, struct arena *mem,
        const char **json, struct error *err);

#endif
