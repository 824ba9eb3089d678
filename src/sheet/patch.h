/* patch.h - rectangles on paper, turned any way, and which of them are taken.
 *
 * What is drawn is entered here, so that a label finds a place where it touches nothing. A grid of
 * cells keeps the question short. */
#ifndef SHEET_PATCH_H
#define SHEET_PATCH_H

#include "slabwright/geom.h"

/* Middle, half sides along and across, mm; turned clockwise on paper, where y runs down. */
struct patch {
	struct point at;
	double along, across, turn;
};

enum { TAKEN_TEXT = 1, TAKEN_LINE = 2, TAKEN_AREA = 4, TAKEN_ANY = 7 };

struct taken_item {
	struct patch patch;
	unsigned kind;
	struct point reach; /* half sides of the upright box around it */
};

struct taken_link {
	size_t item, next; /* next: index + 1; 0 none */
};

enum { TAKEN_CELLS = 64 };

struct taken {
	struct arena *mem;
	struct taken_item *items;
	size_t count, room;
	struct taken_link *links;
	size_t link_count, link_room;
	size_t first[TAKEN_CELLS][TAKEN_CELLS]; /* index of a link + 1; 0 none */
	bool failed; /* memory is gone */
};

/* Forgets what was taken; memory comes from mem. */
void taken_clear(struct taken *taken, struct arena *mem);
void taken_add(struct taken *taken, const struct patch *patch, unsigned kind);
/* A line, as thin patches. */
void taken_add_line(struct taken *taken, struct point a, struct point b, unsigned kind);
/* Whether nothing of these kinds touches the patch. */
bool taken_free(const struct taken *taken, const struct patch *patch, unsigned kinds);

bool patches_touch(const struct patch *a, const struct patch *b);
/* Half sides of the upright box around a patch. */
struct point patch_reach(const struct patch *p);
bool patch_within(const struct patch *p, const struct box *box);
void patch_corners(const struct patch *p, struct point out[4]);
/* Shapes given by rings, the first one around the others, its holes. A point well within; whether a
 * patch lies within; the nearest point of their sides, and how far it is. */
struct point rings_middle(const struct ring *rings, size_t n);
bool rings_hold(const struct patch *p, const struct ring *rings, size_t n);
struct point rings_nearest(const struct ring *rings, size_t n, struct point p, double *distance);
struct patch patch_of_line(struct point a, struct point b, double width);

#endif
