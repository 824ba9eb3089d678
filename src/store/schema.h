/* schema.h - the tables, and how an older store becomes one of today. */
#ifndef SLABWRIGHT_STORE_SCHEMA_H
#define SLABWRIGHT_STORE_SCHEMA_H

#include "sql.h"

/* Steps the store forward to STORE_VERSION in one transaction, after a backup copy beside it where
 * it held anything. A newer one is refused. A new one gets its catalogue from share_dir (NULL: only
 * the rule set "none"). */
enum status schema_upgrade(struct store *s, const char *share_dir, struct error *err);

#endif
