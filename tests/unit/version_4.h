/* version_4.h - a store of version 4, before water, site, planters and steps. */
#ifndef TESTS_VERSION_4_H
#define TESTS_VERSION_4_H

/* Makes one as the program of that version left it: one variant, 1, with a ring, a border, a zone
 * with a mix, a kerb and one edit that moved corner 3; a slab, an edging and a repeat in the
 * catalogue. */
void version_4_make(const char *path);

/* The variant's document as that program exported it. */
extern const char version_4_document[];

#endif
