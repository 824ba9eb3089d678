/* catalogue.h - filling a store from the files that come with the program. */
#ifndef SLABWRIGHT_STORE_CATALOGUE_H
#define SLABWRIGHT_STORE_CATALOGUE_H

#include "sql.h"

/* Reads the folder's files that a version of the store brought with it into the store, inside the
 * caller's transaction: slabs.json, edgings.json and rulesets.json with version 1, repeats.json and
 * mixes.json with version 3. STATUS_STORE names the file and the place of a fault. */
enum status catalogue_load(struct store *s, const char *share_dir, int version, struct error *err);

#endif
