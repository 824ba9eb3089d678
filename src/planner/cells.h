/* cells.h - the frame as a grid of cells, before it goes to the terminal.
 *
 * Everything shown is first put here: text from the store is made harmless, fitted to columns and
 * clipped, so that what goes to the terminal is one printable character a cell. Nothing here knows
 * the terminal. */
#ifndef SLABWRIGHT_PLANNER_CELLS_H
#define SLABWRIGHT_PLANNER_CELLS_H

#include <stdbool.h>
#include <stddef.h>
#include <wchar.h>

/* How a cell looks. Each has an appearance without colour too. */
enum style {
	STYLE_PLAIN,
	STYLE_QUIET, /* rulers, notes */
	STYLE_STRONG,
	STYLE_TITLE,
	STYLE_KEY, /* the name of a key */
	STYLE_HERE, /* the stage, row or corner that is chosen */
	STYLE_CURSOR,
	STYLE_EDGE,
	STYLE_WALL,
	STYLE_NUMBER, /* node numbers, lengths and levels in the sketch */
	STYLE_WATER,
	STYLE_JOINT,
	STYLE_CUT,
	STYLE_SLIVER,
	STYLE_WARN,
	STYLE_GOOD,
	STYLES,
};

#define CELL_CHARS 4 /* a character and what combines with it; unused ones 0 */

struct cell {
	wchar_t ch[CELL_CHARS]; /* ch[0] == 0: the right half of a wide character */
	unsigned char style;
};

struct cells {
	int rows, cols;
	bool ascii; /* only 7-bit characters are put */
	struct cell *at;
};

/* Gives the grid its size and blanks it; false when memory is gone. cells_free on all zeroes is
 * fine. */
bool cells_resize(struct cells *c, int rows, int cols);
void cells_free(struct cells *c);

/* A rectangle of the grid. Positions are its own; what falls outside it, or outside the grid, is
 * left out. */
struct area {
	struct cells *cells;
	int row, col, rows, cols;
};

struct area cells_all(struct cells *c);
struct area area_part(const struct area *a, int row, int col, int rows, int cols);
void area_fill(const struct area *a, wchar_t ch, enum style style);
void area_put(const struct area *a, int row, int col, wchar_t ch, enum style style);
void area_restyle(const struct area *a, int row, int col, int width, enum style style);

/* Puts UTF-8 text in at most `width` columns; longer text ends with a mark. Control characters,
 * escapes, invisible direction marks and broken UTF-8 show as marks. Returns the columns used. */
int area_text(
        const struct area *a, int row, int col, int width, enum style style, const char *text);
/* The same, ending at column col + width. */
int area_text_right(
        const struct area *a, int row, int col, int width, enum style style, const char *text);

/* Columns the text takes when shown. */
int text_columns(const char *text, bool ascii);

/* Bytes of the text's first line when wrapped to `width` columns at blanks; *next starts the next
 * line. */
size_t text_wrap(const char *text, int width, bool ascii, const char **next);

#endif
