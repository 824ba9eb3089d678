/* pane.h - the figures on the right, as lines. */
#ifndef SLABWRIGHT_PLANNER_PANE_H
#define SLABWRIGHT_PLANNER_PANE_H

#include "app.h"

struct pane_line {
	const char *left, *right; /* right stands at the pane's right side */
	enum style style;
};

struct pane {
	struct arena *mem;
	struct pane_line *lines;
	size_t count, capacity;
	int width, rows; /* of the pane itself */
	bool ascii;
};

void pane_head(struct pane *p, const char *text); /* with a blank line before, save at the top */
void pane_gap(struct pane *p);
void pane_pair(struct pane *p, const char *left, const char *format, ...)
        __attribute__((format(printf, 3, 4)));
void pane_pair_styled(struct pane *p, enum style style, const char *left, const char *format, ...)
        __attribute__((format(printf, 4, 5)));
/* Wrapped to the pane's width. */
void pane_text(struct pane *p, enum style style, const char *format, ...)
        __attribute__((format(printf, 3, 4)));

/* The pane of a stage. */
void pane_fill(struct app *app, struct pane *p);
void pane_outline(struct app *app, struct pane *p);
void pane_falls(struct app *app, struct pane *p);
void pane_laying(struct app *app, struct pane *p);
void pane_edging(struct app *app, struct pane *p);
/* Of Edging: what border the chosen edge has and what its run takes; and the plan's borders. */
void pane_edge_border(struct app *app, struct pane *p);
/* The string line along the chosen edge; bed and mass of a kind of edging. */
void pane_string(struct app *app, struct pane *p); /* pane_kerb.c */
void pane_bed(struct app *app, enum edge_kind kind, struct pane *p);
void pane_borders(struct app *app, struct pane *p);
/* What a thing weighs and who lifts it; nothing where that is not known. */
void pane_lift(struct pane *p, const char *words, const struct handling *h); /* lift.c */
void pane_planters(struct app *app, struct pane *p);
void pane_steps(struct app *app, struct pane *p);
void pane_ground(struct app *app, struct pane *p);
void pane_setout(struct app *app, struct pane *p);
void pane_check(struct app *app, struct pane *p);
void pane_order(struct app *app, struct pane *p);
/* Of Order: price and time. */
void pane_price(struct app *app, struct pane *p); /* pane_price.c */
void pane_time(struct app *app, struct pane *p);
void pane_variants(struct app *app, struct pane *p);
/* Says why there are no figures; false when there are. */
bool pane_missing(struct app *app, struct pane *p);

/* Draws it, scrolled; puts app->view.pane_top in range. */
void pane_draw(struct app *app, const struct area *area);

#endif
