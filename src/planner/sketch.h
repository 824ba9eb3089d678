/* sketch.h - the plan on the cell grid.
 *
 * A cell is two columns wide and one row high, square to the eye. Column c shows the plan at
 * left + c * cell / 2, row r at bottom + (rows - 1 - r) * cell, so that grid points fall on even
 * columns. */
#ifndef SLABWRIGHT_PLANNER_SKETCH_H
#define SLABWRIGHT_PLANNER_SKETCH_H

#include "app.h"

struct sketch {
	const struct app *app;
	struct arena *mem; /* of this frame */
	struct area area;
	unsigned char *taken; /* cells that labels must not cover */
	unsigned char *paved; /* cells whose middle lies in the paving */
};

bool sketch_begin(struct app *app, const struct area *area, struct sketch *s);
int sketch_col(const struct sketch *s, double x_um);
int sketch_row(const struct sketch *s, double y_um);
double sketch_x(const struct sketch *s, int col);
double sketch_y(const struct sketch *s, int row);
void sketch_mark(const struct sketch *s, int row, int col, wchar_t ch, enum style style);
void sketch_take(const struct sketch *s, int row, int col); /* leaves a gap of a line free */
bool sketch_label(const struct sketch *s, int row, int col, const char *text, enum style style);
bool sketch_paved(const struct sketch *s, int row, int col);
/* Sets line[i], for `count` of i, to whether (x + i * step, y) lies in the region. */
void sketch_scan(const struct region *region, double x, double y, double step, int count,
        unsigned char *line);

/* The part of a segment within the sketch, with some room around; false when none is. */
bool sketch_clip(const struct sketch *s, struct point *a, struct point *b);

/* A straight line, cell by cell, in the character for the way it runs. */
struct stroke {
	wchar_t flat, steep, rising, falling;
	enum style style;
	bool dashed; /* every other cell */
	bool under; /* only where nothing is drawn yet, and labels may cover it */
};
void sketch_stroke(
        const struct sketch *s, struct point a, struct point b, const struct stroke *stroke);
struct stroke stroke_plain(bool ascii, enum style style);

void sketch_rulers(struct app *app, const struct layout *lay);
void sketch_grid(const struct sketch *s);
void sketch_edges(const struct sketch *s); /* of the outline, openings and zones */
void sketch_zone_names(const struct sketch *s); /* sketch_zones.c */
void sketch_corners(const struct sketch *s);
void sketch_cursor(const struct sketch *s);

/* look.c: how slabs are drawn in cells of a size: only cut pieces and the like are marked, each
 * slab shows by dots, each shows by lines. Dots want more than ASCII. */
enum slab_look { LOOK_MARKS, LOOK_DOTS, LOOK_LINES };
/* Of the part worked on (of the field, where that has no slabs), and of any section that is paved.
 */
enum slab_look slabs_look(const struct app *app, int64_t cell_um);
enum slab_look section_look(const struct section *section, int64_t cell_um, bool ascii);

/* What of the laying a point of the plan lies in. */
struct spot {
	const struct section *section; /* NULL: no slabs are laid there */
	struct point at; /* in the section's pattern frame */
	const struct section *looked_up; /* the section that what follows is of; NULL: none yet */
	struct slab_spot slab;
	struct box cell; /* the slab with its joint, in the pattern frame */
	const struct piece *pieces; /* of the slab position; none where it is whole */
	size_t piece_count;
};

/* How a section is drawn. */
struct section_view {
	double cosine, sine; /* of its bond's rotation; of a border nothing */
	enum slab_look look; /* the best that its slabs are large enough for */
};

/* Looks up spots, for one frame. */
struct spotter {
	const struct app *app;
	struct section_view *views; /* by the paving's sections; NULL: memory is gone */
	unsigned char *line; /* room for a line */
};
struct spotter spotter_of(const struct app *app, struct arena *mem, int count);

/* Looks up a line of spots, (x + i * step, y) for `count` of i; spots below them, drawn before,
 * spare the search where a point lies in the same slab. */
void spot_line(const struct spotter *spotter, double x, double y, double step, int count,
        struct spot *line, const struct spot *below);
bool spot_same(const struct spot *a, const struct spot *b); /* whether in one slab position */
enum piece_kind spot_kind(const struct spot *spot);
const struct section_view *spot_view(const struct spotter *spotter, const struct spot *spot);

void slabs_draw(const struct sketch *s);
/* Fills a column with what a kind of piece is marked by. */
void slabs_fill(const struct sketch *s, int row, int col, enum piece_kind kind);
/* Marks slivers and made-up pieces, over the edges where they lie under one. */
void slabs_mark_narrow(const struct sketch *s);
/* The piece or slab under the cursor, in words; "" where there is none. */
const char *slab_words(struct app *app);
/* The largest cell, of those zoomed to, that gives the look or a better one; 0 for none. */
int64_t view_cell_for(const struct app *app, enum slab_look look);
/* From joint to joint across a slab the shorter way; of bonds of several sizes, the mean. */
int64_t slabs_shorter_um(const struct plan_laying *laying);
/* What is to be known of the look at this zoom; "" where it speaks for itself. */
const char *slabs_note(struct app *app);
/* The same as a message, at Laying, where slabs are too small to be seen one by one. */
void slabs_say_far(struct app *app);

/* dots.c: the slabs by braille dots. */
void dots_draw(const struct sketch *s);

void water_draw(const struct sketch *s);
/* What drains where, by letters; and the letter of an end of the take-off's surface, as the pane
 * lists it. */
void areas_draw(const struct sketch *s); /* sketch_areas.c */
char end_letter(size_t end);
/* Planters and flights of steps. */
void build_draw(const struct sketch *s); /* sketch_build.c */
/* Whether the chosen planter's blocks, or their joints, are seen at this zoom. */
bool blocks_shown(const struct app *app);
/* At Ground, Set-out and Check. */
void site_draw(const struct sketch *s); /* sketch_site.c */

#endif
