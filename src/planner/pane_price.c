/* pane_price.c - what the job costs and how long it takes, at Order. */
#include "pane.h"

#include "slabwright/sheet.h"

#include <inttypes.h>
#include <stdio.h>

static void sum(struct pane *p, const char *words, int64_t minor)
{
	char money[48];

	if (minor)
		pane_pair(p, words, "%s", money_print(money, sizeof money, minor));
}

void pane_price(struct app *app, struct pane *p)
{
	const struct costing *c = &app->t.costing;
	const struct price *price = &c->price;
	char money[48], words[60];

	snprintf(words, sizeof words, "Price, %.8s", app->plan.costs.currency);
	pane_head(p, words);
	if (!c->has_price) {
		pane_text(p, STYLE_WARN, "! %s", c->price_fault.text);
		return;
	}
	for (int i = 0; i < COST_GROUPS; i++)
		sum(p, cost_group_name((enum cost_group)i), price->group_minor[i]);
	sum(p, "margin", price->margin_minor);
	sum(p, "discount", -price->discount_minor);
	sum(p, "rounding", price->rounding_minor);
	sum(p, "tax", price->tax_minor);
	pane_pair_styled(p, STYLE_STRONG, "TOTAL", "%s",
	        money_print(money, sizeof money, price->total_minor));
	if (price->unknown)
		pane_text(p, STYLE_WARN,
		        "! without %zu line%s whose price is not known: m sets them.",
		        price->unknown, price->unknown == 1 ? "" : "s");
}

void pane_time(struct app *app, struct pane *p)
{
	const struct costing *c = &app->t.costing;

	if (!c->has_schedule)
		return;
	pane_head(p, "Time");
	pane_pair(p, "person-hours", "%.1f", (double)c->schedule.hours_centi / 100);
	pane_pair(p, "days with work", "%zu", c->schedule.worked_days);
	pane_pair(p, "first to last day", "%" PRId64, c->schedule.calendar_days);
	if (app->t.materials.in.trips)
		pane_pair(p, "trips in", "%" PRId64, app->t.materials.in.trips);
	if (app->t.materials.away.trips)
		pane_pair(p, "trips away", "%" PRId64, app->t.materials.away.trips);
}
