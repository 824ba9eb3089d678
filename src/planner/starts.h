/* starts.h - the ranking of start lines on the screen.
 *
 * While it is open the sketch and the pane show the plan as the marked row would lay it: the app's
 * take-off and field laying are exchanged for those of the preview, which is never stored, and put
 * back before anything else is done. */
#ifndef SLABWRIGHT_PLANNER_STARTS_H
#define SLABWRIGHT_PLANNER_STARTS_H

#include "slabwright/startline.h"

struct app;
struct pane;

struct starts {
	struct arena mem; /* of the search */
	struct start_search *search; /* NULL: the ranking is not open */
	struct start_list list;
	bool turned; /* bonds turned by 90 degrees too */
	size_t at; /* the marked row; list.count: the present start, where no row has it */
	bool chosen; /* the user has marked it: the mark keeps to its start */
	struct takeoff stored; /* what is put back; it lives in the app's arena */
	struct plan_laying stored_laying;
	struct arena preview; /* of the take-off shown */
	struct start_row shown; /* what it shows */
};

void act_starts(struct app *app, int key);
void act_starts_row(struct app *app, int key);
void act_starts_take(struct app *app, int key);
void act_starts_leave(struct app *app, int key);
void act_starts_turned(struct app *app, int key);

/* A slice of the search; false when it has ended. */
bool starts_idle(struct app *app);
/* Puts back what is stored and forgets the ranking; the place is Laying again. */
void starts_close(struct app *app);
void pane_starts(struct app *app, struct pane *p);

#endif
