/* pane_steps.c - what the pane says at that stage. */
#include "pane.h"

void pane_steps(struct app *app, struct pane *p)
{
	pane_missing(app, p);
}
