/* pane_ground.c - what the pane says at Ground: the levelling book, and what is dug. */
#include "pane.h"

#include <inttypes.h>
#include <stdio.h>

static void book_lines(struct app *app, struct pane *p)
{
	const struct plan_book *book = &app->plan.site.book;
	const struct book_result *b = &app->t.site.book;

	pane_head(p, "Levelling book");
	if (!book->count) {
		pane_text(p, STYLE_PLAIN,
		        "Empty. b types the staff's readings; levels and misclosure follow.");
		return;
	}
	pane_pair(p, "lines", "%zu", book->count);
	if (!app->t.site.has_book) {
		pane_text(p, STYLE_WARN, "! %s", app->t.site.book_fault.text);
		return;
	}
	pane_pair(p, "set-ups", "%zu", b->set_up_count);
	pane_pair(p, "last height", "%.3f m",
	        (double)b->set_ups[b->set_up_count - 1].height_um / 1e6);
	if (!b->has_close)
		return;
	pane_pair_styled(p, b->within ? STYLE_PLAIN : STYLE_WARN, "misclosure", "%+.1f mm",
	        (double)b->misclosure_um / 1000);
	pane_pair(p, "  allowed", "%.1f mm", b->allowed_um / 1000);
	if (!b->within)
		pane_text(p, STYLE_WARN, "! Too much: level the run again.");
}

void pane_ground(struct app *app, struct pane *p)
{
	book_lines(app, p);
	pane_head(p, "Ground");
	pane_pair(p, "levels typed", "%zu", app->plan.site.spot_count);
	pane_missing(app, p);
}
