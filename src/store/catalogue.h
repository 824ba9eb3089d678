/* catalogue.h - filling a store from the files that come with the program. */
#ifndef SLABWRIGHT_STORE_CATALOGUE_H
#define SLABWRIGHT_STORE_CATALOGUE_H

#include "doc.h"

/* Reads the folder's files that a version of the store brought with it into the store, inside the
 * caller's transaction: slabs.json, edgings.json and rulesets.json with version 1, repeats.json and
 * mixes.json with version 3, rain.json, blocks.json and step_units.json with version 5.
 * STATUS_STORE names the file and the place of a fault. */
enum status catalogue_load(struct store *s, const char *share_dir, int version, struct error *err);

/* These read an item of such a file and keep it as a document. */
enum status rain_load(struct reader *r, const struct doc *item);
enum status block_load(struct reader *r, const struct doc *item);
enum status step_unit_load(struct reader *r, const struct doc *item);

#endif
