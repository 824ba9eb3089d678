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

enum store_level { STORE_CLIENT, STORE_JOB, STORE_VARIANT, STORE_LEVELS };

struct store_entry {
	int64_t id;
	const char *uuid, *name;
	int64_t children; /* jobs of a client, variants of a job, those in use */
	const char *changed; /* UTC, ISO 8601 */
	const char *notes; /* "" none; UTF-8, anything but NUL, up to NOTES_LONGEST bytes */
	bool archived;
};
struct store_list {
	struct store_entry *items;
	size_t count;
};

enum store_which {
	STORE_IN_USE, /* neither archived nor deleted */
	STORE_WITH_ARCHIVED, /* the archived ones last */
	STORE_DELETED, /* alone, under the names they had */
};

/* Clients (parent 0), jobs of a client, variants of a job, by name. */
enum status store_entries(struct store *s, enum store_level level, int64_t parent,
        enum store_which which, struct arena *mem, struct store_list *out, struct error *err);
/* Those in use. */
enum status store_clients(
        struct store *s, struct arena *mem, struct store_list *out, struct error *err);
enum status store_jobs(struct store *s, int64_t client, struct arena *mem, struct store_list *out,
        struct error *err);
enum status store_variants(
        struct store *s, int64_t job, struct arena *mem, struct store_list *out, struct error *err);

/* A name that is taken among its siblings, archived ones too, is refused (STATUS_PLAN). */
enum status store_client_add(struct store *s, const char *name, int64_t *id, struct error *err);
enum status store_job_add(
        struct store *s, int64_t client, const char *title, int64_t *id, struct error *err);
enum status store_variant_add(struct store *s, int64_t job, const char *name, int64_t *id,
        struct error *err); /* an empty plan */
enum status store_client_rename(
        struct store *s, int64_t client, const char *name, struct error *err);
enum status store_job_rename(struct store *s, int64_t job, const char *title, struct error *err);
enum status store_variant_rename(
        struct store *s, int64_t variant, const char *name, struct error *err);

/* Copies of a variant in its job or in another one, and of a job with all its variants. Plans and
 * notes are copied, what was done to them before (undo) is not. */
enum status store_variant_copy(
        struct store *s, int64_t variant, const char *name, int64_t *id, struct error *err);
enum status store_variant_copy_to(struct store *s, int64_t variant, int64_t job, const char *name,
        int64_t *id, struct error *err);
enum status store_job_copy(
        struct store *s, int64_t job, const char *title, int64_t *id, struct error *err);

enum status store_notes_set(
        struct store *s, enum store_level level, int64_t id, const char *notes, struct error *err);
enum status store_archive(
        struct store *s, enum store_level level, int64_t id, bool archived, struct error *err);

/* A deleted entry is out of every list with all that is below it, and its name is free; its rows
 * stay, and store_undelete brings it back as it was, with a number behind its name where that was
 * taken meanwhile. store_tidy removes what is deleted for good: *variants is how many. */
enum status store_delete(struct store *s, enum store_level level, int64_t id, struct error *err);
enum status store_undelete(struct store *s, enum store_level level, int64_t id, struct error *err);
enum status store_tidy(struct store *s, int64_t *variants, struct error *err);

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

/* What is here already with other content than in a document. */
struct store_clash {
	enum store_level level;
	const char *client, *job, *variant; /* the names here; NULL below the level */
	const char *parts; /* what differs: "outline, laying"; "notes" */
	bool deleted; /* the one here is deleted */
};

enum store_clashes {
	STORE_CLASHES_REFUSED, /* nothing of the document is taken in */
	STORE_CLASHES_BESIDE, /* the document's stand beside those here: see store_merge */
};

struct store_merged {
	int64_t client, job, variant; /* the first ones of the document, as they are here; 0 none */
	size_t added; /* variants */
	size_t beside; /* of them, because they clashed */
	size_t back; /* clients, jobs and variants that were deleted here and came back */
	size_t joined; /* notes that were added to */
	struct store_clash *clashes;
	size_t clash_count;
};

/* Checks the whole document, then merges it in one transaction. What has the same UUID is the same
 * entry; else clients and jobs of the same name are. A variant with a new UUID is added, with a
 * number behind its name where that is taken. One whose UUID is here, with the same plan, is left
 * as it is, whatever its name; with another plan it clashes. Notes that have all lines of the
 * others stand; else they clash. The archive flag of what is here stays.
 *
 * Clashes refused: STATUS_PLAN, with all of them in *out. Beside: a variant gets a new UUID and
 * " (from other)" behind its name, unless its job has the same plan already; notes that clash are
 * joined, those here first.
 *
 * STATUS_PLAN names the place of the first fault ("variants[0].outline.nodes[3].x: not a number").
 * The outline's soundness is checked by `sound`, which may be NULL; where a zone is still being
 * drawn it sees the plan without zones. Texts in *out live in mem. */
typedef enum status plan_sound_fn(const struct plan *plan, struct error *err);
enum status store_merge(struct store *s, const char *json, size_t length, plan_sound_fn *sound,
        enum store_clashes clashes, struct arena *mem, struct store_merged *out, struct error *err);

/* The same with clashes refused. *first is the first variant of the document, *added how many were
 * added. */
enum status store_import(struct store *s, const char *json, size_t length, plan_sound_fn *sound,
        int64_t *first, size_t *added, struct error *err);

/* The document for a job, or for one variant of it when variant is not 0; and for a client with all
 * jobs. Archived ones are in it, deleted ones are not. Text in the arena. */
enum status store_export(struct store *s, int64_t job, int64_t variant, struct arena *mem,
        const char **json, struct error *err);
enum status store_export_client(
        struct store *s, int64_t client, struct arena *mem, const char **json, struct error *err);

/* --- copies of the whole store --- */

/* Writes the store to a file of its own, mode 0600, whole or not at all. A file that is there is
 * not touched (STATUS_USAGE). */
enum status store_backup(struct store *s, const char *file, struct error *err);

/* Puts the store that is in `file` in the place of the one at path, which no program may have open;
 * what was there is kept beside it: *kept is its name, NULL where nothing was there. STATUS_STORE
 * for what is not a whole store or is newer; then all is as it was. */
enum status store_restore(const char *path, const char *file, struct arena *mem, const char **kept,
        struct error *err);

#endif
