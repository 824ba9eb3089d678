/* cautions.c - what can hurt someone, said with the plan's own figures. */
#include "slabwright/sheet.h"

#include <inttypes.h>
#include <math.h>

/* Of what is lifted by the piece: nothing where one person may. */
static void say_lifting(const char *what, const struct handling *h, caution_fn *say, void *context)
{
	char text[600], words[400];

	if (h->lift == LIFT_ONE)
		return;
	if (h->lift == LIFT_UNKNOWN)
		snprintf(text, sizeof text,
		        "Lifting: the density of the %s is not known, so its mass is not either. "
		        "Weigh one before anyone lifts it alone.",
		        what);
	else
		snprintf(text, sizeof text, "Lifting: one %s weighs %s%s.", what,
		        handling_print(words, sizeof words, h),
		        h->lift == LIFT_NO_LIMIT
		                ? "; use a lifting aid or two people where it is heavy for you"
		                : "");
	say(context, text);
}

/* Slab, kerbs and step units. A kerb without a section has no mass to speak of. */
static void say_all_lifting(const struct takeoff *t, caution_fn *say, void *context)
{
	struct handling slab = handling_of(&t->rules, t->order.slab_mass_kg);
	char what[320];

	say_lifting("slab", &slab, say, context);
	for (size_t i = 0; i < t->kerbs.count; i++) {
		const struct kerb_line *k = &t->kerbs.lines[i];

		if (!k->fault && k->has_unit) {
			snprintf(what, sizeof what, "%s unit%s%.200s", edge_kind_name(k->kind),
			        *k->edging->name ? ", " : "", k->edging->name);
			say_lifting(what, &k->handling, say, context);
		}
	}
	for (size_t i = 0; i < t->steps.count; i++)
		if (!t->steps.flights[i].fault)
			say_lifting(steps_piece_name(t->steps.flights[i].steps),
			        &t->steps.flights[i].handling, say, context);
}

static int64_t thickest_um(const struct takeoff *t)
{
	int64_t most = t->plan.laying.slab.thickness_um;

	for (size_t i = 0; i < t->laid.stock_count; i++)
		if (t->laid.stocks[i].slab.thickness_um > most)
			most = t->laid.stocks[i].slab.thickness_um;
	return most;
}

/* Zones that lie higher or lower than what is around them. */
static void say_steps(const struct takeoff *t, caution_fn *say, void *context)
{
	for (size_t i = 0; i < t->laid.section_count; i++) {
		const struct section *s = &t->laid.sections[i];
		char text[400], mm[40];

		if (!s->level_um || s->shared_m <= 0)
			continue;
		snprintf(text, sizeof text,
		        "Tripping: %.120s lies %s mm %s the paving beside it. Make it a step that "
		        "is seen, or bring the levels together.",
		        s->name,
		        mm_print(mm, sizeof mm, s->level_um < 0 ? -s->level_um : s->level_um),
		        s->level_um < 0 ? "under" : "over");
		say(context, text);
	}
}

static void say_digging(const struct takeoff *t, caution_fn *say, void *context)
{
	const struct plan_ground *g = &t->plan.ground;
	int64_t depth = g->bedding_um + g->sub_base_um + thickest_um(t);
	char text[400], mm[40];

	snprintf(text, sizeof text,
	        "Digging: the formation lies %s mm under the finished surface. Have buried "
	        "services located and marked before any digging: plan, locate, then dig safely, "
	        "in that order (Avoiding danger from underground services, HSG47, Health and "
	        "Safety Executive, 2014).",
	        mm_print(mm, sizeof mm, depth));
	say(context, text);
}

/* Where the sides of a dig begin to be dangerous: common practice, from memory. */
static const double DEEP_UM = 1200000;

static void say_deep(const struct takeoff *t, caution_fn *say, void *context)
{
	const struct earth_result *e = &t->earth;
	char text[400], x[40], y[40];

	if (!e->ready || e->deepest_um <= DEEP_UM)
		return;
	snprintf(text, sizeof text,
	        "Digging: the dig is up to %.2f m deep, at x %s, y %s. Sides deeper than about 1.2 "
	        "m (common practice) may fall in without warning, and lower ones in wet or loose "
	        "soil: slope or shore them before anyone goes in, and keep soil and machines away "
	        "from the edge.",
	        e->deepest_um * 1e-6,
	        length_print(x, sizeof x, llround(e->deepest_x_um / 1000) * 1000, UNIT_M),
	        length_print(y, sizeof y, llround(e->deepest_y_um / 1000) * 1000, UNIT_M));
	say(context, text);
}

static bool has_edge(const struct takeoff *t, enum edge_kind kind)
{
	for (size_t i = 0; i < t->edging.count; i++)
		if (t->edging.lines[i].kind == kind)
			return true;
	return false;
}

static bool has_haunch(const struct takeoff *t)
{
	for (size_t i = 0; i < t->kerbs.count; i++)
		if (t->kerbs.lines[i].haunch_m3 > 0)
			return true;
	return false;
}

/* Flights that break a limit, or want rails; and single steps. */
static void say_flights(const struct takeoff *t, caution_fn *say, void *context)
{
	char text[500];

	for (size_t i = 0; i < t->steps.count; i++) {
		const struct flight *f = &t->steps.flights[i];

		if (f->fault)
			continue;
		if (!f->obeys) {
			snprintf(text, sizeof text,
			        "Steps: flight %zu breaks a limit of the rule set; see the steps "
			        "sheet.",
			        i + 1);
			say(context, text);
		}
		if (f->handrail || f->guard) {
			snprintf(text, sizeof text,
			        "Falling: the rule set wants %s%s%s at flight %zu.",
			        f->handrail ? "a handrail" : "",
			        f->handrail && f->guard ? " and " : "",
			        f->guard ? "guarded sides" : "", i + 1);
			say(context, text);
		}
		if (f->risers == 1) {
			snprintf(text, sizeof text,
			        "Tripping: flight %zu is a single step, which is easily missed. "
			        "Make its edge seen.",
			        i + 1);
			say(context, text);
		}
	}
}

/* Each wall's verdict; the caution beside them all. */
static void say_planters(const struct takeoff *t, caution_fn *say, void *context)
{
	bool told = false;
	char text[700], words[120];

	for (size_t i = 0; i < t->planters.count; i++) {
		const struct planter_result *r = &t->planters.items[i];

		if (!r->ready)
			continue;
		planter_words(words, sizeof words, r->planter, i);
		snprintf(text, sizeof text, "Held soil, %s: %s", words, r->wall.reason);
		say(context, text);
		if (r->heavy) {
			snprintf(text, sizeof text,
			        "Lifting, %s: a block weighs %.1f kg, over the %.0f kg for one "
			        "person (%s): two people or a lifting aid.",
			        words, r->block_kg, (double)r->lift->number / 1000,
			        r->lift->source);
			say(context, text);
		}
		told = true;
	}
	if (told)
		say(context, WALL_CAUTION);
}

void sheet_cautions(const struct takeoff *t, caution_fn *say, void *context)
{
	char text[300];

	say_digging(t, say, context);
	say_deep(t, say, context);
	if (t->earth.ready && has_edge(t, EDGE_HOUSE_WALL))
		say(context,
		        "Digging beside a house wall: not under its footing, or the wall loses "
		        "its hold; look how deep that reaches first.");
	if (t->laid.cut > 0) {
		snprintf(text, sizeof text,
		        "Cutting: %" PRId64 " pieces to cut. The dust holds silica and scars the "
		        "lungs: cut wet, outdoors, and wear a mask that fits.",
		        t->laid.cut);
		say(context, text);
	}
	say_all_lifting(t, say, context);
	say_steps(t, say, context);
	say_flights(t, say, context);
	if (has_edge(t, EDGE_KERB) || has_edge(t, EDGE_HAUNCH) || has_edge(t, EDGE_PLANTER))
		say(context,
		        "Wet cement burns skin, often without pain at first: gloves and boots, "
		        "and wash it off at once.");
	if (has_haunch(t))
		say(context, "A green haunch takes no load: no plate and no wheel beside it until "
		             "it has "
		             "hardened, three days at least (common practice).");
	if (has_edge(t, EDGE_PLANTER))
		say(context, "A wall that holds back soil is not designed here; above the height "
		             "local rules set it needs an engineer.");
	say_planters(t, say, context);
	say(context, "Local codes and licensed practice come before every figure given here.");
}
