/* failing.h - a disk and a memory that fail when they are told to.
 *
 * The disk is a layer around SQLite's own files, the memory one around its allocator. Each counts
 * what it is asked for, and fails the request number `at` (and all that follow, where `on` says
 * so). */
#ifndef TESTS_FAILING_H
#define TESTS_FAILING_H

#include <stdbool.h>

struct failing {
	int at; /* from 0; negative: never */
	bool on; /* fails from there on, not only once */
	int seen; /* requests so far */
	int hits; /* how many failed */
	int code; /* of the disk: SQLITE_FULL, SQLITE_IOERR_WRITE ... */
};

extern struct failing failing_disk; /* writes, truncations and syncs */
extern struct failing failing_memory; /* allocations */

/* Puts the layer in for the whole process; before SQLite's first use. */
void failing_disk_install(void);
void failing_memory_install(void);

/* Starts counting anew. */
void failing_start(struct failing *f, int at, bool on);
void failing_stop(struct failing *f);

#endif
