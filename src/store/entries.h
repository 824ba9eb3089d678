/* entries.h - clients, jobs and variants, as the parts of the store share them. */
#ifndef SLABWRIGHT_STORE_ENTRIES_H
#define SLABWRIGHT_STORE_ENTRIES_H

#include "slabwright/text.h"
#include "sql.h"

#define UUID_SIZE 37

/* What differs between the levels. Statements: ?1 is an id, of the parent in `list` and `find`. */
struct level {
	const char *what; /* "client" */
	const char *among; /* where a name may stand only once */
	const char *list; /* ?2: an enum store_which */
	const char *find, *by_uuid, *parent;
	const char *rename, *notes, *archive, *remove, *bring_back, *gone;
};
extern const struct level levels[STORE_LEVELS];

/* A random UUID (version 4), lower case. */
void uuid_make(char uuid[UUID_SIZE]);

/* These add a row inside the caller's transaction; uuid NULL makes one. The name must be free. */
enum status client_insert(
        struct store *s, const char *uuid, const char *name, int64_t *id, struct error *err);
enum status job_insert(struct store *s, int64_t client, const char *uuid, const char *title,
        int64_t *id, struct error *err);
enum status variant_insert(struct store *s, int64_t job, const char *uuid, const char *name,
        const struct plan *plan, int64_t *id, struct error *err);

/* Notes and archive flag of a new row, in the caller's transaction. */
enum status entry_mark(struct store *s, enum store_level level, int64_t id, const char *notes,
        bool archived, struct error *err);

/* The parent of an entry that is not deleted (0 of a client); STATUS_PLAN for another id. */
enum status parent_of(
        struct store *s, enum store_level level, int64_t id, int64_t *parent, struct error *err);

/* Ids by name; 0 where there is none. Deleted ones have no name. */
enum status entry_by_name(struct store *s, enum store_level level, int64_t parent, const char *name,
        int64_t *id, struct error *err);

/* Refuses a name that cannot stand, or that another one of the siblings has. */
enum status name_free(struct store *s, enum store_level level, int64_t parent, const char *name,
        int64_t self, struct error *err);

/* The name itself, or with the first number behind it that makes it free: "A 2". */
enum status name_numbered(struct store *s, enum store_level level, int64_t parent, const char *name,
        struct arena *mem, const char **out, struct error *err);

/* Brings a deleted entry back, in the caller's transaction; *gone tells whether it was one. */
enum status entry_back(
        struct store *s, enum store_level level, int64_t id, bool *gone, struct error *err);

/* Marks a variant, its job and its client as changed now. */
enum status variant_touch(struct store *s, int64_t variant, struct error *err);

/* For an id that leads nowhere. */
enum status no_such_id(const char *what, int64_t id, struct error *err);

#endif
