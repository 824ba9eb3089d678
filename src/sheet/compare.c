/* compare.c - the figures of a variant that are set beside those of others: one table, which text,
 * CSV, JSON and the planner read. */
#include "slabwright/compare.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

/* --- the figures --- */

static void area(const struct takeoff *t, struct compare_value *v)
{
	v->number = t->area_m2;
}

static void perimeter(const struct takeoff *t, struct compare_value *v)
{
	v->number = t->perimeter_m;
}

static void slab(const struct takeoff *t, struct compare_value *v)
{
	const struct plan_laying *l = &t->plan.laying;
	const struct plan_slab *s = &l->slab;
	char length[24], width[24], thickness[24];

	mm_print(thickness, sizeof thickness, s->thickness_um);
	if (l->bond == BOND_MIXED)
		snprintf(v->text, sizeof v->text, "%.32s, %.10s mm",
		        *l->repeat.name ? l->repeat.name : "mixed sizes", thickness);
	else if (l->bond == BOND_COURSED_RANDOM)
		snprintf(v->text, sizeof v->text, "%zu sizes, %s mm, draw %" PRId64, l->mix.count,
		        thickness, l->mix.seed);
	else
		snprintf(v->text, sizeof v->text, "%s x %s x %s mm",
		        mm_print(length, sizeof length, s->length_um),
		        mm_print(width, sizeof width, s->width_um), thickness);
}

static void bond(const struct takeoff *t, struct compare_value *v)
{
	bond_print(v->text, sizeof v->text, &t->plan.laying);
}

static void start(const struct takeoff *t, struct compare_value *v)
{
	const struct plan_laying *l = &t->plan.laying;
	char x[24], y[24];

	length_print_bare(x, sizeof x, l->start_x_um, UNIT_M);
	length_print_bare(y, sizeof y, l->start_y_um, UNIT_M);
	snprintf(v->text, sizeof v->text, "%.22s, %.22s", x, y);
}

static void whole(const struct takeoff *t, struct compare_value *v)
{
	v->number = (double)t->laid.whole;
}

static void cut(const struct takeoff *t, struct compare_value *v)
{
	v->number = (double)t->laid.cut;
}

static void sliver(const struct takeoff *t, struct compare_value *v)
{
	v->number = (double)t->laid.sliver;
}

static void made_up(const struct takeoff *t, struct compare_value *v)
{
	v->number = (double)t->laid.made_up;
}

static void for_cuts(const struct takeoff *t, struct compare_value *v)
{
	v->number = (double)t->cuts.slabs;
}

static void to_order(const struct takeoff *t, struct compare_value *v)
{
	v->number = (double)t->order.slabs;
}

static void thumb(const struct takeoff *t, struct compare_value *v)
{
	v->number = (double)t->order.rule_of_thumb;
}

static void mass(const struct takeoff *t, struct compare_value *v)
{
	if (t->order.mass_kg > 0)
		v->number = t->order.mass_kg;
}

/* In the ground: topsoil and what comes from under it. */
static void dig(const struct takeoff *t, struct compare_value *v)
{
	if (t->earth.ready)
		v->number = t->earth.topsoil_m3 + t->earth.cut_m3;
}

static void warnings(const struct takeoff *t, struct compare_value *v)
{
	v->number = (double)(t->surface.warning_count + t->drainage.warning_count);
}

static void fall(const struct takeoff *t, struct compare_value *v)
{
	if (!t->surface.has_plane)
		snprintf(v->text, sizeof v->text, "not set");
	else
		snprintf(v->text, sizeof v->text, "%.1f mm/m %s",
		        (double)t->surface.fall_um_per_m / 1000,
		        compass_name(t->surface.toward_udeg));
}

/* Length of the edges along which something is bought by the piece. */
static void edging(const struct takeoff *t, struct compare_value *v)
{
	v->number = 0;
	for (size_t i = 0; i < t->edging.count; i++)
		if (t->edging.lines[i].unit_um)
			v->number += t->edging.lines[i].length_m;
}

static void edging_units(const struct takeoff *t, struct compare_value *v)
{
	v->number = 0;
	for (size_t i = 0; i < t->edging.count; i++)
		v->number += (double)t->edging.lines[i].units;
}

/* Not known where one cannot be worked out. */
static void risers(const struct takeoff *t, struct compare_value *v)
{
	double sum = 0;

	for (size_t i = 0; i < t->steps.count; i++)
		sum = t->steps.flights[i].fault ? NAN : sum + (double)t->steps.flights[i].risers;
	v->number = sum;
}

static void step_units(const struct takeoff *t, struct compare_value *v)
{
	double sum = 0;

	for (size_t i = 0; i < t->steps.count; i++)
		sum = t->steps.flights[i].fault ? NAN
		                                : sum + (double)t->steps.flights[i].order.units;
	v->number = sum;
}

static void planters(const struct takeoff *t, struct compare_value *v)
{
	v->number = (double)t->planters.count;
}

static void blocks(const struct takeoff *t, struct compare_value *v)
{
	double sum = 0;

	for (size_t i = 0; i < t->planters.count; i++) {
		const struct planter_result *p = &t->planters.items[i];

		sum = !p->ready ? NAN
		                : sum + (double)(p->blocks.buy_whole + p->blocks.buy_half +
		                                 p->blocks.buy_corner);
	}
	v->number = sum;
}

/* The one place where a price comes in: that of the slabs. */
static void price(const struct takeoff *t, struct compare_value *v)
{
	if (t->order.price_minor >= 0)
		v->number = (double)t->order.price_minor;
	else
		snprintf(v->text, sizeof v->text, "%s",
		        !bond_of_one_slab(t->plan.laying.bond) ? "several sizes"
		        : t->order.line_count > 1              ? "not set for each"
		                                               : "not set");
}

enum kind { TEXT, COUNT, METRES, AREA, VOLUME, MASS, MONEY };

static const struct {
	const char *name, *key;
	enum kind kind;
	void (*get)(const struct takeoff *t, struct compare_value *v);
	const char *best; /* what the least of it is called; NULL: less is not better */
	bool always; /* also without an outline */
} figures[COMPARE_FIGURES] = {
	{ "Area", "area_m2", AREA, area, NULL, false },
	{ "Perimeter", "perimeter_m", METRES, perimeter, NULL, false },
	{ "Slab", "slab", TEXT, slab, NULL, true },
	{ "Bond", "bond", TEXT, bond, NULL, true },
	{ "Start", "start", TEXT, start, NULL, true },
	{ "Price of slabs", "price_slabs_minor", MONEY, price, "cheapest", false },
	{ "Whole slabs", "whole", COUNT, whole, NULL, false },
	{ "Cut pieces", "cut", COUNT, cut, "fewest", false },
	{ "Slivers", "sliver", COUNT, sliver, "fewest", false },
	{ "Made up in joint", "made_up", COUNT, made_up, "fewest", false },
	{ "Slabs for cuts", "slabs_for_cuts", COUNT, for_cuts, NULL, false },
	{ "Slabs to order", "slabs_to_order", COUNT, to_order, NULL, false },
	{ "Rule of thumb", "rule_of_thumb", COUNT, thumb, NULL, false },
	{ "Mass of slabs", "slab_mass_kg", MASS, mass, "lightest", false },
	{ "Dig", "dig_m3", VOLUME, dig, "least", false },
	{ "Fall", "fall", TEXT, fall, NULL, false },
	{ "Water warnings", "water_warnings", COUNT, warnings, "fewest", false },
	{ "Edging", "edging_m", METRES, edging, NULL, false },
	{ "Edging units", "edging_units", COUNT, edging_units, NULL, false },
	{ "Risers", "risers", COUNT, risers, NULL, false },
	{ "Step units", "step_units", COUNT, step_units, NULL, false },
	{ "Planters", "planters", COUNT, planters, NULL, false },
	{ "Planter blocks", "planter_blocks", COUNT, blocks, NULL, false },
};

const char *compare_name(size_t figure)
{
	return figures[figure].name;
}

const char *compare_key(size_t figure)
{
	return figures[figure].key;
}

static void print(enum kind kind, struct compare_value *v)
{
	static const struct {
		int decimals;
		const char *unit;
	} forms[] = { [COUNT] = { 0, "" },
		[METRES] = { 3, " m" },
		[AREA] = { 2, " m2" },
		[VOLUME] = { 2, " m3" },
		[MASS] = { 0, " kg" } };

	if (isnan(v->number)) {
		if (!*v->text)
			snprintf(v->text, sizeof v->text, "not known");
		return;
	}
	if (kind == MONEY)
		money_print(v->text, sizeof v->text, (int64_t)v->number);
	else if (kind != TEXT)
		snprintf(v->text, sizeof v->text, "%.*f%s", forms[kind].decimals, v->number,
		        forms[kind].unit);
}

void compare_column_of(const struct takeoff *t, struct compare_column *out)
{
	out->ready = t->ready;
	for (size_t i = 0; i < COMPARE_FIGURES; i++) {
		struct compare_value *v = &out->values[i];

		*v = (struct compare_value){ .number = NAN };
		if (t->ready || figures[i].always) {
			figures[i].get(t, v);
			print(figures[i].kind, v);
		} else {
			snprintf(v->text, sizeof v->text, "no outline yet");
		}
	}
}

/* By what is shown: finer is noise of the arithmetic. */
bool compare_differs(const struct compare_column *columns, size_t count, size_t figure)
{
	for (size_t i = 1; i < count; i++)
		if (strcmp(columns[i].values[figure].text, columns[0].values[figure].text) != 0)
			return true;
	return false;
}

const char *compare_best(
        const struct compare_column *columns, size_t count, size_t figure, size_t column)
{
	const struct compare_value *least = NULL;
	bool differs = false;

	if (!figures[figure].best || !columns[column].ready)
		return NULL;
	for (size_t i = 0; i < count; i++) {
		const struct compare_value *v = &columns[i].values[figure];

		if (!columns[i].ready)
			continue;
		if (isnan(v->number))
			return NULL;
		differs = differs || (least && strcmp(least->text, v->text) != 0);
		if (!least || v->number < least->number)
			least = v;
	}
	return differs && strcmp(least->text, columns[column].values[figure].text) == 0
	               ? figures[figure].best
	               : NULL;
}
