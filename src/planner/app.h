/* app.h - the planner's state, and what its parts offer each other.
 *
 * A key becomes an action, an action changes the plan through change.c (dry run, check, store,
 * take-off) or the view, and when no key waits one frame is drawn from this state. The plan shown
 * is always the stored one. */
#ifndef SLABWRIGHT_PLANNER_APP_H
#define SLABWRIGHT_PLANNER_APP_H

#include "cells.h"
#include "elevation.h"
#include "glyph.h"
#include "keys.h"
#include "starts.h"

#include "slabwright/compare.h"
#include "slabwright/planner.h"
#include "slabwright/takeoff.h"

/* What is on the screen. The first ones, to AT_VARIANTS, are the stages, in the order of the work.
 */
enum place {
	AT_OUTLINE,
	AT_FALLS,
	AT_LAYING,
	AT_EDGING,
	AT_PLANTERS,
	AT_STEPS,
	AT_GROUND,
	AT_ORDER,
	AT_SETOUT,
	AT_CHECK,
	AT_VARIANTS,
	AT_CLIENTS,
	AT_JOBS,
	AT_STARTS, /* the ranking of start lines, beside the sketch */
	AT_CHOICE, /* one of several values is chosen */
	AT_TABLE, /* a list of things is typed, cell by cell */
	AT_ELEVATION, /* a planter's wall or a flight of steps from the side */
	AT_COMPARE,
	AT_HELP,
	PLACES,
};
#define STAGES (AT_VARIANTS + 1)

/* What the arrow keys move besides the cursor. */
enum mode { MODE_USUAL, MODE_CARRY, MODE_NUDGE };

/* What is kept of a variant's screen between runs. */
struct view {
	int64_t x_um, y_um; /* cursor */
	int64_t cell_um; /* side of a cell */
	int64_t left_um, bottom_um; /* centre of the sketch's lower left column */
	size_t ring, at; /* chosen corner, and the edge that leaves it; at Outline also of a zone */
	size_t part; /* worked on at Laying and Order: 0 the field, z + 1 zone z */
	bool placed; /* false: fit the plan before the next frame */
	bool fitted; /* the whole plan is shown: fit it again when the sketch's size changes */
	int pane_top; /* first line of the pane shown */
	int64_t contour_um; /* between contour lines at Falls; 0: none are drawn */
	bool areas; /* what drains where is drawn at Falls, instead of arrows and contours */
};

struct app;

/* The line editor at the foot. */
struct prompt {
	bool on;
	char label[80];
	char hint[160]; /* unit, limits, an example */
	char text[4004]; /* what was typed, UTF-8 */
	size_t length, most; /* bytes; most: of what may be typed */
	bool offered; /* the text is the value so far: typing replaces it */
	/* Takes the text; false when it is refused: the message says why, and the text stays to be
	 * mended. */
	bool (*done)(struct app *app, const char *text);
	/* An arrow key, where it means something; as `done`. NULL otherwise. */
	bool (*arrow)(struct app *app, int key, const char *text);
	int64_t number; /* what `done` needs to remember from the prompt before */
	double fraction;
	char words[120];
};

/* Rows to choose from: clients, jobs, variants, slabs, units, kinds. */
struct list_row {
	const char *words, *note;
	int64_t id;
	const char *notes; /* of a client, job or variant: what was noted; NULL of other rows */
	bool archived;
};
struct list {
	char title[120];
	struct list_row *rows; /* that are shown */
	size_t count, at;
	size_t capacity;
	struct list_row *all; /* narrowed: all of them; else NULL */
	size_t all_count;
	char find[80]; /* what the rows shown have in them */
	bool typing; /* letters go to `find` */
	int top;
	void (*chosen)(struct app *app, const struct list_row *row); /* AT_CHOICE only */
	const char *empty; /* shown when there are no rows */
};

struct form;
struct table;

/* Where a flight of steps that is being added begins. */
struct flight_place {
	int64_t x_um, y_um, toward_udeg, width_um; /* width 0: as usual */
};

/* Levels at places, up to three, from which a plane follows. */
struct known_levels {
	struct known_level {
		int64_t x_um, y_um, level_um;
	} at[3];
	size_t count;
};

/* Where one is in a table. */
struct table_view {
	const struct table *table;
	size_t row, column;
	size_t top; /* first row shown */
	size_t asked; /* rows there were when the prompt opened */
	bool adding; /* a new row is being typed: each prompt opens the next one */
	enum place back;
};

/* A listed variant's figures, as they become known. */
struct variant_row {
	int64_t id;
	bool known;
	struct compare_column column;
};

struct app {
	struct store *store;
	struct cells cells;
	bool ascii, colour, quit;
	int rows, cols; /* of the terminal */
	int canvas_rows, canvas_cols; /* of the sketch drawn last */
	enum place place, back,
	        help_back; /* back: where a choice, a comparison and a list return to */
	enum place stage; /* the one visited last */
	enum mode mode;
	int64_t client, job, variant; /* 0: none is open */
	struct arena names_mem, work, list_mem, choice_mem, frame_mem;
	struct store_place names; /* of the open variant; in names_mem */
	char client_name[220]; /* of the client whose jobs are listed */
	struct plan plan; /* of the open variant, as stored; in `work` like its take-off */
	struct takeoff t;
	bool drafting; /* the take-off leaves out what is still being drawn: an opening, a zone */
	struct view view;
	int64_t nudge_um;
	int64_t close_um; /* the cell Laying came close with by itself; 0: it did not */
	bool stay_whole; /* at Laying the user asked for the whole plan */
	enum edge_kind last_kind;
	struct prompt prompt;
	struct list list; /* clients, jobs or variants */
	struct list choice; /* AT_CHOICE */
	const struct form *form; /* whose values are chosen from, at AT_CHOICE */
	struct table_view table; /* AT_TABLE */
	struct known_levels known; /* at Falls, typed to fix a plane by */
	struct flight_place flight;
	bool run_drawn; /* the first leg of a planter's run is there */
	size_t drain; /* channel or gully whose values are changed */
	size_t item; /* the plane, planter, flight or such chosen at a stage that has several */
	bool even_courses; /* of a planter, in the sketch */
	struct elevation_view elevation; /* AT_ELEVATION */
	size_t leg; /* of the wall shown there */
	int leaf;
	struct starts starts; /* AT_STARTS */
	struct variant_row *variants; /* those of the list, at AT_VARIANTS */
	size_t variant_count;
	size_t compare_left; /* first column shown at AT_COMPARE */
	bool archived; /* lists show what is archived too */
	char file[1024]; /* a document that is being taken in or written */
	int help_top;
	int press_row, press_col;
	char message[600];
	bool refused; /* the message says why something was not done */
};

/* --- app.c: opening, closing, messages --- */

void app_say(struct app *app, const char *format, ...) __attribute__((format(printf, 2, 3)));
void app_refuse(struct app *app, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* Shows err as the reason something was not done; returns false. */
bool app_fail(struct app *app, const struct error *err);
void app_key(struct app *app, int key);
/* How much of the search for a better cut plan is done with each edit, about a millisecond of it,
 * and in each idle slice, a few. */
enum { FIRST_LOOKS = 20000, IDLE_LOOKS = 60000 };
/* Does a slice of the work that waits for an idle moment; false when there is none. */
bool app_idle(struct app *app);
/* Opens a variant at the stage it was left at. False, with the reason shown, when it cannot be
 * read; the one open before stays open. */
bool app_open(struct app *app, int64_t variant);
/* Leaves the open variant, which is no more. */
void app_close(struct app *app);
void app_keep_view(struct app *app);
void app_go(struct app *app, enum place place);
bool app_is_stage(enum place place);
/* Whether the sketch is drawn there; and slabs in it. */
bool app_has_sketch(enum place place);
bool app_has_slabs(enum place place);

/* --- change.c: from an edit to a fresh take-off --- */

/* Tries the edit on a copy, checks its rings and whether what could be laid still can, stores it
 * and works the variant out again. False, with the reason shown, when it is refused: nothing is
 * stored then. */
bool app_edit(struct app *app, const struct edit *edit);
/* Several edits, each an undo step: all of them or none. */
bool app_edits(struct app *app, const struct edit *edits, size_t count);
bool app_reload(struct app *app);
/* Chooses a corner and a part that there are. */
void keep_choice_in_range(struct app *app);
/* Takes over what another program has written to the store since the last look, and says so where
 * the plan shown has changed. False when there was nothing. */
bool app_catch_up(struct app *app);
/* Reads the names on the top line again; they stay when that fails: false, with the reason shown.
 */
bool app_names_again(struct app *app);
void app_undo(struct app *app, int key);
void app_redo(struct app *app, int key);
/* The ring that is being drawn, of a zone too, or SIZE_MAX. */
size_t draft_ring(const struct plan *plan);
/* The laying of the part worked on; and that of the field, whose kerf, fill and sliver width, edge
 * rule, breakage and gaps are the whole variant's. */
bool edit_laying(struct app *app, const char *label, const struct plan_laying *laying);
bool edit_field(struct app *app, const char *label, const struct plan_laying *laying);
bool edit_surface(struct app *app, const char *label, const struct plan_surface *surface);

/* --- prompt.c --- */

struct prompt *prompt_open(struct app *app, const char *label, const char *hint, const char *text,
        bool (*done)(struct app *app, const char *text));
void prompt_key(struct app *app, int key);
/* Splits "a x b", "a ; b" or "a b" into two lengths. */
bool two_lengths(struct app *app, const char *text, enum unit unit, int64_t *a, int64_t *b);
bool typed_length(struct app *app, const char *text, enum unit unit, int64_t *um);

/* --- value.c: single values of a list --- */

enum value {
	VALUE_MM,
	VALUE_COUNT,
	VALUE_DENSITY,
	VALUE_PERCENT, /* parts per million */
	VALUE_MONEY, /* minor units; -1, an empty line: not known */
	VALUE_M, /* a length or level in metres, either sign */
	VALUE_SIGHT, /* likewise; NO_READING, an empty line: none */
	VALUE_FALL,
	VALUE_ANGLE,
	VALUE_FACTOR, /* parts per million, as 0.012 */
	VALUE_RAIN, /* um/h, as mm/h */
	VALUE_SOAK, /* nm/s, as mm/h */
	VALUE_FLOW, /* ml/s, as l/s; 0: not known */
	VALUE_LOAD, /* N/m2, as kN/m2 */
	VALUE_MILLI, /* thousandths */
	VALUE_HOURS, /* minutes, as hours */
	VALUE_MASS, /* grams, as kg; 0: not known */
	VALUE_MINUTES,
	PLAIN_VALUES
};

/* As the list shows it; as a prompt offers it, "" where it is not known; and as it is typed: false,
 * with the reason shown, for what is no such value. */
char *value_print(char *buf, size_t size, enum value value, int64_t v);
const char *value_offered(char *buf, size_t size, enum value value, int64_t v);
bool value_typed(struct app *app, enum value value, const char *text, int64_t *out);
const char *size_meaning_words(enum size_meaning size);
const char *grain_words(bool directional);

/* --- list.c --- */

/* Typing narrows the rows to those that have what was typed in them; list_find_key is false for a
 * key that it leaves to others. What is typed stands until list_widen, which keeps the marked row
 * marked. Memory for the rows shown comes from mem. */
void list_find(struct list *l, struct arena *mem, const char *text);
bool list_find_key(struct app *app, struct list *l, int key);
void list_widen(struct list *l);
/* The list that letters go to, or NULL. */
struct list *list_typing(struct app *app);
struct arena *list_mem(struct app *app, const struct list *l);
void list_move(struct app *app, struct list *l, int key);
struct list *list_here(struct app *app);
/* Marks the row of that id, where there is one. */
void list_mark(struct list *l, int64_t id);
/* Opens a choice; rows are added with choice_add and live in choice_mem. */
struct list *choice_open(
        struct app *app, const char *title, void (*chosen)(struct app *, const struct list_row *));
void choice_add(struct app *app, const char *words, const char *note, int64_t id);

/* --- words.c --- */

/* An error's text for the screen: values named as in the pane, a capital at its start. Returns buf.
 */
char *crew_words(char *buf, size_t size, const char *text);

/* --- act_compare.c --- */

/* The figures of a listed variant; NULL where it is not listed. */
struct variant_row *variant_listed(struct app *app, int64_t id);

/* --- together.c --- */

/* Reads the list on the screen again: narrowed as it was, the row of that id marked (0: the one
 * that was). */
void list_again(struct app *app, int64_t id);

/* --- the sketch and the pane: sketch.c, slabs.c, water.c, pane.c, frame.c --- */

struct layout {
	struct area top, stages, ruler_top, ruler_left, canvas, pane, message, foot, body;
	bool fits;
};
void layout_of(struct app *app, struct layout *out);
void frame_draw(struct app *app);
void view_fit(struct app *app);
/* Fits the plan when some of it lies outside the sketch; one that is drawn and shown stays fitted.
 */
void view_show_all(struct app *app);
/* After the plan has changed: what was seen whole is seen whole again. */
void view_keep_whole(struct app *app);
void view_follow(struct app *app);
/* Before a frame: fits or follows as the sketch's size and the cursor ask for. */
void view_settle(struct app *app);
void view_zoom(struct app *app, int by);
/* On coming to a stage: Laying comes so close that each slab shows, the others show the whole plan
 * again. */
void view_enter(struct app *app);

/* --- small things shared --- */

/* A length in metres to the millimetre: "3.620"; and with all its decimals, for a line that is
 * mended. */
const char *metres(char buf[32], int64_t um);
const char *metres_exact(char buf[32], int64_t um);
/* Mass of one, the slab itself; 0 unknown. */
double slab_kg(const struct plan_slab *slab); /* lift.c */
/* ", 18.9 kg by one" by the rule set in force; "" for a mass that is not known. Returns buf. */
const char *lift_note(const struct app *app, char *buf, size_t size, double kg); /* lift.c */

#endif
