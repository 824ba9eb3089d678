/* glyph.h - the characters the sketch is drawn with, for UTF-8 and for plain ASCII. */
#ifndef SLABWRIGHT_PLANNER_GLYPH_H
#define SLABWRIGHT_PLANNER_GLYPH_H

#include "slabwright/plan.h"

#include <wchar.h>

enum glyph {
	GLYPH_ALONG, /* a line running across, up, rising to the right, falling to the right */
	GLYPH_UPRIGHT,
	GLYPH_RISING,
	GLYPH_FALLING,
	GLYPH_CORNER,
	GLYPH_CHOSEN, /* the chosen corner */
	GLYPH_CURSOR,
	GLYPH_GRID,
	GLYPH_TICK,
	GLYPH_BAR, /* between sketch and pane */
	GLYPH_JOINT_LEFT,
	GLYPH_JOINT_BELOW,
	GLYPH_CUT,
	GLYPH_SLIVER,
	GLYPH_MADE_UP,
	GLYPH_START,
	GLYPH_FIXED,
	GLYPH_FLOW,
	GLYPH_PATH, /* between client, job and variant */
	GLYPH_DIFFERS,
	GLYPH_ZONE_ALONG, /* a zone's line across and up, and its corner */
	GLYPH_ZONE_UPRIGHT,
	GLYPH_ZONE_CORNER,
	GLYPH_GULLY,
	GLYPH_SOAKAWAY,
	GLYPH_POND,
	GLYPH_SPOT,
	GLYPH_PEG,
	GLYPH_TIE,
	GLYPH_WEEP, /* a drainage hole */
	GLYPH_CAP, /* a profile on a wall, and what fixes it */
	GLYPH_FIXING,
	GLYPH_SURFACE, /* a level, seen from the side */
	GLYPHS,
};

wchar_t glyph(bool ascii, enum glyph which);

/* Dots in the places of a braille cell, bit n - 1 for dot n: 1, 2, 3 and 7 from the top on the
 * left, 4, 5, 6 and 8 on the right. A blank for none. */
wchar_t glyph_dots(unsigned dots);

/* The line an edge of a kind is drawn with, and its letter. */
wchar_t kind_glyph(bool ascii, enum edge_kind kind, bool upright);
char kind_letter(enum edge_kind kind);

/* An arrow head for one of eight directions, 0 right and on anticlockwise. */
wchar_t arrow_glyph(bool ascii, int octant);

#endif
