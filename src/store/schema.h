/* schema.h - the tables, and how an older store becomes one of today. */
#ifndef SLABWRIGHT_STORE_SCHEMA_H
#define SLABWRIGHT_STORE_SCHEMA_H

#include "sql.h"

/* How long another program that holds the store is waited for: at an edit, and where it may be
 * making or upgrading the store. */
enum { BUSY_MS = 2000, MAKING_MS = 15000 };

/* Steps the store forward to STORE_VERSION in one transaction, after a backup copy beside it where
 * it held anything. A newer one is refused. What its version lacks of the catalogue comes from
 * share_dir (NULL: nothing but the rule set "none" of a new one). */
enum status schema_upgrade(struct store *s, const char *share_dir, struct error *err);

#endif
