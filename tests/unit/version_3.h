/* version_3.h - a store of version 3, before borders and zones. */
#ifndef TESTS_VERSION_3_H
#define TESTS_VERSION_3_H

/* Makes one as the program of that version left it: one variant, 1, with a ring, a repeat, a mix
 * and one edit that moved corner 3; a slab, a repeat "Row" and a mix "Pack" in the catalogue. */
void version_3_make(const char *path);

/* The variant's document as that program exported it. */
extern const char version_3_document[];

#endif
