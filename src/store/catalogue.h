/* catalogue.h - filling a new store from the files that come with the program. */
#ifndef SLABWRIGHT_STORE_CATALOGUE_H
#define SLABWRIGHT_STORE_CATALOGUE_H

#include "sql.h"

/* Reads slabs.json, edgings.json and rulesets.json of the folder into the store, inside the
 * caller's transaction. STATUS_STORE names the file and the place of a fault. */
enum status catalogue_load(struct store *s, const char *share_dir, struct error *err);

#endif
