/* pane_setout.c - what the pane says at that stage. */
#include "pane.h"

void pane_setout(struct app *app, struct pane *p)
{
	pane_missing(app, p);
}
