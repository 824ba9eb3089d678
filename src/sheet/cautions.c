/* cautions.c - what can hurt someone, said with the plan's own figures. */
#include "slabwright/sheet.h"

#include <inttypes.h>
#include <math.h>

static void say_lifting(const struct takeoff *t, caution_fn *say, void *context)
{
	const struct rule *limit = rules_find(&t->rules, "lift_one_person");
	double kg = t->order.slab_mass_kg;
	char text[400];

	if (kg <= 0) {
		say(context, "Lifting: the slab's density is not known, so its mass is not either. "
		             "Weigh one before anyone lifts it alone.");
		return;
	}
	if (!limit) {
		snprintf(text, sizeof text,
		        "Lifting: one slab weighs %.1f kg. The rule set names no limit for one "
		        "person; use a lifting aid or two people where it is heavy for you.",
		        kg);
	} else if (llround(kg * 1000) > limit->number) {
		snprintf(text, sizeof text,
		        "Lifting: one slab weighs %.1f kg, over the %.0f kg for one person (%s): "
		        "two people or a lifting aid.",
		        kg, (double)limit->number / 1000, limit->source);
	} else {
		return;
	}
	say(context, text);
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
	        "services "
	        "located and marked before any digging.",
	        mm_print(mm, sizeof mm, depth));
	say(context, text);
}

static bool has_edge(const struct takeoff *t, enum edge_kind kind)
{
	for (size_t i = 0; i < t->edging.count; i++)
		if (t->edging.lines[i].kind == kind)
			return true;
	return false;
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
	if (t->laid.cut > 0) {
		snprintf(text, sizeof text,
		        "Cutting: %" PRId64 " pieces to cut. The dust holds silica and scars the "
		        "lungs: cut wet, outdoors, and wear a mask that fits.",
		        t->laid.cut);
		say(context, text);
	}
	say_lifting(t, say, context);
	say_steps(t, say, context);
	if (has_edge(t, EDGE_KERB) || has_edge(t, EDGE_HAUNCH) || has_edge(t, EDGE_PLANTER))
		say(context,
		        "Wet cement burns skin, often without pain at first: gloves and boots, "
		        "and wash it off at once.");
	if (has_edge(t, EDGE_PLANTER))
		say(context, "A wall that holds back soil is not designed here; above the height "
		             "local rules set it needs an engineer.");
	say_planters(t, say, context);
	say(context, "Local codes and licensed practice come before every figure given here.");
}
