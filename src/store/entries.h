/* entries.h - clients, jobs and variants, as the parts of the store share them. */
#ifndef SLABWRIGHT_STORE_ENTRIES_H
#define SLABWRIGHT_STORE_ENTRIES_H

#include "slabwright/text.h"
#include "sql.h"

#define UUID_SIZE 37

/* A random UUID (version 4), lower case. */
void uuid_make(char uuid[UUID_SIZE]);

/* These add a row inside the caller's transaction; uuid NULL makes one. The name must be free. */
enum status client_insert(
        struct store *s, const char *uuid, const char *name, int64_t *id, struct error *err);
enum status job_insert(struct store *s, int64_t client, const char *uuid, const char *title,
        int64_t *id, struct error *err);
enum status variant_insert(struct store *s, int64_t job, const char *uuid, const char *name,
        const struct plan *plan, int64_t *id, struct error *err);

/* Ids by name; 0 where there is none. */
enum status client_by_name(struct store *s, const char *name, int64_t *id, struct error *err);
enum status job_by_title(
        struct store *s, int64_t client, const char *title, int64_t *id, struct error *err);
enum status variant_by_name(
        struct store *s, int64_t job, const char *name, int64_t *id, struct error *err);

/* Marks a variant, its job and its client as changed now. */
enum status variant_touch(struct store *s, int64_t variant, struct error *err);

/* For an id that leads nowhere. */
enum status no_such_id(const char *what, int64_t id, struct error *err);

#endif
