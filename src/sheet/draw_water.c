/* draw_water.c - the water plan: falls, ridges and valleys, contours, what drains where as light
 * patterns with a letter each, drains, and where the water ends up. */
#include "drawn_water.h"
#include "label.h"
#include "plan_page.h"
#include "sheets.h"

#include <inttypes.h>
#include <math.h>

static const double SIDE_MM = 96;

static const char *litres(struct drawing *d, double l_s)
{
	return d->t->drainage.has_rain ? page_print(d, "%.2f", l_s) : "-";
}

static const char *litres_of_area(struct drawing *d, double area_m2)
{
	const struct drainage *w = &d->t->drainage;

	return litres(d, runoff_flow_l_s(w->runoff, w->mm_per_h, area_m2));
}

/* Under a square centimetre: what rounding leaves at corners. */
static bool is_shown(double area_m2)
{
	return area_m2 >= 1e-4;
}

static void list_areas(struct flow *f, const struct drain_area *areas, size_t count)
{
	static const struct table_column columns[] = {
		{ "", 6, ALIGN_LEFT },
		{ "drains first to", 56, ALIGN_LEFT },
		{ "m2", 16, ALIGN_RIGHT },
		{ "l/s", 14, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	struct table t = table_begin(f, columns, 4, SIZE_NOTE);

	for (size_t i = 0; i < count; i++)
		TABLE_ROW(&t, areas[i].letter, areas[i].place,
		        page_print(d, "%.3f", areas[i].area.area_m2),
		        litres_of_area(d, areas[i].area.area_m2));
	table_end(&t);
}

static const char *end_words(struct drawing *d, const struct water_end *e)
{
	switch (e->kind) {
	case END_CHANNEL:
		return page_print(d, "into channel %zu", e->number + 1);
	case END_GULLY:
		return page_print(d, "into gully %zu", e->number + 1);
	case END_POND:
		return page_print(d, "STANDS at %s", d->t->surface.ponds[e->number].place);
	case END_EDGE:
		break;
	}
	return page_print(d, "leaves over %s", drain_edge_words(d, e->number));
}

static void list_ends(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "where it ends up", 62, ALIGN_LEFT },
		{ "m2", 16, ALIGN_RIGHT },
		{ "l/s", 14, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct surface_result *s = &d->t->surface;
	struct table t = table_begin(f, columns, 3, SIZE_NOTE);

	for (size_t i = 0; i < s->end_count; i++)
		if (is_shown(s->ends[i].area_m2))
			TABLE_ROW(&t, end_words(d, &s->ends[i]),
			        page_print(d, "%.3f", s->ends[i].area_m2),
			        litres_of_area(d, s->ends[i].area_m2));
	table_end(&t);
}

static void list_channels(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "channel", 26, ALIGN_LEFT },
		{ "m", 11, ALIGN_RIGHT },
		{ "flow l/s", 14, ALIGN_RIGHT },
		{ "takes l/s", 15, ALIGN_RIGHT },
		{ "deep mm", 14, ALIGN_RIGHT },
		{ "water mm", 15, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct drainage *w = &d->t->drainage;
	struct table t = table_begin(f, columns, 6, SIZE_NOTE);

	for (size_t i = 0; i < w->channel_count; i++) {
		const struct channel_result *c = &w->channels[i];

		TABLE_ROW(&t, page_print(d, "%zu %s", i + 1, page_clean(d, c->name)),
		        page_print(d, "%.2f", c->length_m), litres(d, c->flow_l_s),
		        litres(d, c->capacity_l_s),
		        mm_words(d, (double)d->t->plan.water.channels[i].depth_um),
		        w->has_rain ? mm_words(d, c->depths.deepest_m * 1e6) : "-");
	}
	table_end(&t);
}

static void list_gullies(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "gully", 36, ALIGN_LEFT },
		{ "m2", 16, ALIGN_RIGHT },
		{ "flow l/s", 18, ALIGN_RIGHT },
		{ "takes l/s", 18, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct drainage *w = &d->t->drainage;
	struct table t = table_begin(f, columns, 4, SIZE_NOTE);

	for (size_t i = 0; i < w->gully_count; i++) {
		const struct gully_result *g = &w->gullies[i];

		TABLE_ROW(&t, page_print(d, "%zu %s", i + 1, page_clean(d, g->name)),
		        page_print(d, "%.3f", g->area_m2), litres(d, g->flow_l_s),
		        g->capacity_l_s > 0 ? page_print(d, "%.2f", g->capacity_l_s) : "not known");
	}
	table_end(&t);
}

static void say_store(struct flow *f, const char *name, const struct storage_result *s)
{
	struct drawing *d = f->d;

	if (!s->has)
		return;
	if (!d->t->drainage.has_rain)
		flow_line(f, "%s: stores %.2f m3; without rain what is needed is not known.", name,
		        s->given_m3);
	else if (s->needed_m3 <= 0)
		flow_line(f, "%s: nothing has to be stored, given %.2f m3.", name, s->given_m3);
	else if (isfinite(s->half_empty_h))
		flow_line(f,
		        "%s: needed %.2f m3 (rain of %" PRId64
		        " minutes), given %.2f m3; half empty "
		        "after %.1f h.",
		        name, s->needed_m3, s->worst_minutes, s->given_m3, s->half_empty_h);
	else
		flow_line(f, "%s: needed %.2f m3, given %.2f m3; it does not empty.", name,
		        s->needed_m3, s->given_m3);
}

static void say_rain(struct flow *f)
{
	struct drawing *d = f->d;
	const struct drainage *w = &d->t->drainage;
	const struct plan_rain *rain = &d->t->plan.water.rain;

	if (!w->has_rain)
		flow_line(f, "No rain is chosen, so there are no flows. Choose the rain.");
	else
		flow_line(f, "Flows at %.1f mm/h, of which %.0f %% run off (%s; %s).", w->mm_per_h,
		        w->runoff * 100,
		        rain->name && *rain->name ? page_clean(d, rain->name) : "no name",
		        rain->source && *rain->source ? page_clean(d, rain->source) : "no source");
}

static void say_warnings(struct flow *f)
{
	const struct surface_result *s = &f->d->t->surface;
	const struct drainage *w = &f->d->t->drainage;

	if (!s->warning_count && !w->warning_count)
		return;
	flow_heading(f, "Warnings", 8);
	for (size_t i = 0; i < s->warning_count; i++)
		flow_paragraph(f, page_clean(f->d, s->warnings[i].text), SIZE_NOTE);
	for (size_t i = 0; i < w->warning_count; i++)
		flow_paragraph(f, page_clean(f->d, w->warnings[i].text), SIZE_NOTE);
}

void draw_water(struct drawing *d, const char *title)
{
	const struct takeoff *t = d->t;
	struct box shown = plan_box(t);
	struct plan_page page;
	struct drain_area *areas;
	struct flow flow;
	size_t count;
	int64_t apart;

	drain_hold(t, &shown);
	plan_page_begin(d, &page, title, &shown, SIDE_MM);
	areas = drain_areas(d, &count);
	apart = drain_draw(d, &page.view, areas, count);
	flow = plan_page_flow(d, &page);
	flow_heading(&flow, "Where the water goes", 14);
	say_rain(&flow);
	if (apart)
		flow_line(&flow, "Contours are %s mm apart; figures on them are mm over the datum.",
		        tenth_words(d, (double)apart));
	flow_line(&flow, "Small figures beside edges are their numbers.");
	list_areas(&flow, areas, count);
	list_ends(&flow);
	if (t->drainage.channel_count)
		list_channels(&flow);
	if (t->drainage.gully_count)
		list_gullies(&flow);
	say_store(&flow, "Soakaway", &t->drainage.soakaway);
	say_store(&flow, "Sub-base", &t->drainage.sub_base);
	say_warnings(&flow);
	flow_line(&flow, "Estimating practice for small areas: local codes and a drainage designer "
	                 "come before it.");
}
