/* pane_ground.c - what the pane says at that stage. */
#include "pane.h"

void pane_ground(struct app *app, struct pane *p)
{
	pane_missing(app, p);
}
