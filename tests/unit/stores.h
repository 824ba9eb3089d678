/* stores.h - stores in a folder of their own, and random edits, for tests. */
#ifndef TESTS_STORES_H
#define TESTS_STORES_H

#include "chance.h"
#include "slabwright/store.h"

/* Opens NAME in the test's folder (see program.h) with the catalogue that comes with the program;
 * fails the test when that does not go. */
struct store *store_in_folder(const char *name);

/* A variant "A" of the job "J" of the client "C" in the store, empty. */
int64_t empty_variant(struct store *s);

/* The variant's document, to be freed; and that of its whole job. */
char *exported(struct store *s, int64_t variant);
char *exported_job(struct store *s, int64_t variant);

/* Imports a document that must be good; the first variant. */
int64_t imported(struct store *s, const char *json);

/* What two plans differ in, names aside; NULL where they are the same to the last bit. */
const char *plans_differ(const struct plan *a, const struct plan *b);

/* One number that a statement gives, asked of the file through a connection of the test's own. */
int64_t ask_file(const char *path, const char *sql);
/* Runs statements on the file in the same way. */
void change_file(const char *path, const char *sql);

/* Makes a file of all the statements, at once. */
void file_of_statements(const char *path, const char *const *statements, size_t count);

/* A random edit that the plan allows. What it points to lives in mem. */
void random_edit(struct chance *d, struct arena *mem, const struct plan *plan, struct edit *edit);

#endif
