/* figures.c - a take-off as a column of short texts, to be listed and compared. */
#include "app.h"

#include "slabwright/sheet.h"

#include <inttypes.h>
#include <stdarg.h>
#include <stdio.h>

static void number(char out[48], int64_t value)
{
	snprintf(out, 48, "%" PRId64, value);
}

static void area(const struct takeoff *t, char out[48])
{
	snprintf(out, 48, "%.2f m2", t->area_m2);
}

static void perimeter(const struct takeoff *t, char out[48])
{
	snprintf(out, 48, "%.3f m", t->perimeter_m);
}

static void slab(const struct takeoff *t, char out[48])
{
	const struct plan_laying *l = &t->plan.laying;
	const struct plan_slab *s = &l->slab;
	char length[24], width[24], thickness[24];

	mm_print(thickness, sizeof thickness, s->thickness_um);
	if (l->bond == BOND_MIXED)
		snprintf(out, 48, "%.32s, %.10s mm",
		        *l->repeat.name ? l->repeat.name : "mixed sizes", thickness);
	else if (l->bond == BOND_COURSED_RANDOM)
		snprintf(out, 48, "%zu sizes, %s mm, draw %" PRId64, l->mix.count, thickness,
		        l->mix.seed);
	else
		snprintf(out, 48, "%s x %s x %s mm", mm_print(length, sizeof length, s->length_um),
		        mm_print(width, sizeof width, s->width_um), thickness);
}

static void bond(const struct takeoff *t, char out[48])
{
	bond_print(out, 48, &t->plan.laying);
}

static void start(const struct takeoff *t, char out[48])
{
	char x[32], y[32];

	snprintf(out, 48, "%s, %s", metres(x, t->plan.laying.start_x_um),
	        metres(y, t->plan.laying.start_y_um));
}

static void whole(const struct takeoff *t, char out[48])
{
	number(out, t->laid.whole);
}

static void cut(const struct takeoff *t, char out[48])
{
	number(out, t->laid.cut);
}

static void sliver(const struct takeoff *t, char out[48])
{
	number(out, t->laid.sliver);
}

static void made_up(const struct takeoff *t, char out[48])
{
	number(out, t->laid.made_up);
}

static void for_cuts(const struct takeoff *t, char out[48])
{
	number(out, (int64_t)t->cuts.slabs);
}

static void to_order(const struct takeoff *t, char out[48])
{
	number(out, t->order.slabs);
}

static void thumb(const struct takeoff *t, char out[48])
{
	number(out, t->order.rule_of_thumb);
}

static void price(const struct takeoff *t, char out[48])
{
	if (t->order.price_minor < 0)
		snprintf(out, 48, "%s",
		        !bond_of_one_slab(t->plan.laying.bond) ? "several sizes"
		        : t->order.line_count > 1              ? "not set for each"
		                                               : "not set");
	else
		money_print(out, 48, t->order.price_minor);
}

static void fall(const struct takeoff *t, char out[48])
{
	if (!t->surface.has_plane)
		snprintf(out, 48, "not set");
	else
		snprintf(out, 48, "%.1f mm/m %s", (double)t->surface.fall_um_per_m / 1000,
		        compass_name(t->surface.toward_udeg));
}

static void edging(const struct takeoff *t, char out[48])
{
	int64_t units = 0;

	for (size_t i = 0; i < t->edging.count; i++)
		units += t->edging.lines[i].units;
	number(out, units);
}

/* Length of the edges along which something is bought by the piece. */
static void edging_length(const struct takeoff *t, char out[48])
{
	double length = 0;

	for (size_t i = 0; i < t->edging.count; i++)
		if (t->edging.lines[i].unit_um)
			length += t->edging.lines[i].length_m;
	snprintf(out, 48, "%.3f m", length);
}

static const struct {
	const char *name;
	void (*print)(const struct takeoff *t, char out[48]);
	bool needs_outline;
} rows[FIGURES] = {
	{ "Area", area, true },
	{ "Perimeter", perimeter, true },
	{ "Slab", slab, false },
	{ "Bond", bond, false },
	{ "Start", start, false },
	{ "Whole slabs", whole, true },
	{ "Cut pieces", cut, true },
	{ "Slivers", sliver, true },
	{ "Made up in joint", made_up, true },
	{ "Slabs for cuts", for_cuts, true },
	{ "Slabs to order", to_order, true },
	{ "Rule of thumb", thumb, true },
	{ "Price of slabs", price, true },
	{ "Fall", fall, true },
	{ "Edging", edging_length, true },
	{ "Edging units", edging, true },
	{ "Warnings", NULL, true },
};

const char *figure_name(size_t figure)
{
	return rows[figure].name;
}

void figures_of(const struct takeoff *t, struct figures *out)
{
	for (size_t i = 0; i < FIGURES; i++) {
		if (rows[i].needs_outline && !t->ready)
			snprintf(out->text[i], sizeof out->text[i], "no outline yet");
		else if (rows[i].print)
			rows[i].print(t, out->text[i]);
		else
			number(out->text[i], (int64_t)t->surface.warning_count);
	}
}
