/* backup.h - copies of a store's file. */
#ifndef SLABWRIGHT_STORE_BACKUP_H
#define SLABWRIGHT_STORE_BACKUP_H

#include <stdbool.h>

/* Copies a database into another file, which must be there, through connections of its own: SQLite
 * does not copy from one that is writing. */
bool copy_database(const char *from_name, const char *to_name);

#endif
