/* labour.c - see labour.h. Each task's quantity is gathered in parts, with words that name them. */
#include "slabwright/labour.h"

#include "slabwright/takeoff.h"

#include <math.h>
#include <stdio.h>

struct gather {
	struct arena *mem;
	const struct takeoff *t;
	struct labour *out;
	bool failed; /* memory is gone */
};

enum { GULLY_COUNTS_M = 2, SOAKAWAY_COUNTS_M = 10 };
static const int64_t HOURS_MOST_CENTI = INT64_C(1000000000000);

int labour_decimals(enum task task)
{
	return task == TASK_WALL || task == TASK_STEP || task == TASK_CUT || task == TASK_CLEAR ? 0
	                                                                                        : 3;
}

static void add(struct gather *g, enum task task, double quantity, const char *what)
{
	struct labour_task *k = &g->out->tasks[task];
	const char *words;

	if (quantity <= 0)
		return;
	words = arena_print(g->mem, "%s%s%s: %.*f %s", k->parts, *k->parts ? ", " : "", what,
	        labour_decimals(task), quantity, task_unit(task));
	k->quantity += quantity;
	k->parts = words ? words : "";
	g->failed = g->failed || !words;
}

static void add_fault(struct gather *g, enum task task, const char *fault)
{
	struct labour_task *k = &g->out->tasks[task];
	const char *words = arena_print(g->mem, "%s%s%s", k->fault, *k->fault ? "; " : "", fault);

	k->fault = words ? words : "";
	g->failed = g->failed || !words;
}

static void gather_earth(struct gather *g)
{
	const struct earth_result *e = &g->t->earth;

	add(g, TASK_SUB_BASE, e->sub_base.volume_m3, "sub-base");
	if (g->t->plan.costs.materials[MATERIAL_MEMBRANE].used)
		add(g, TASK_MEMBRANE, e->sub_base.area_m2, "under the sub-base");
	if (g->t->plan.costs.materials[MATERIAL_GRAVEL].used)
		add(g, TASK_SUB_BASE, e->unpaved_m3, "zones without slabs");
	if (!e->ready) {
		if (g->t->plan.site.earth.topsoil_um > 0)
			add_fault(g, TASK_STRIP, e->fault.text);
		add_fault(g, TASK_DIG, e->fault.text);
		add_fault(g, TASK_CART, e->fault.text);
		return;
	}
	add(g, TASK_STRIP, e->topsoil_m3, "topsoil");
	add(g, TASK_DIG, e->cut_m3, "down to the formation");
	add(g, TASK_CART, e->topsoil_loose_m3, "topsoil");
	add(g, TASK_CART, e->cut_loose_m3, "dug");
	add(g, TASK_SUB_BASE, e->fill_m3, "fill under the formation");
}

static void gather_drains(struct gather *g)
{
	const struct plan_water *w = &g->t->plan.water;
	double length_m = 0;

	for (size_t i = 0; i < g->t->drainage.channel_count; i++)
		length_m += g->t->drainage.channels[i].length_m;
	g->out->channels = length_m > 0;
	add(g, TASK_DRAINS, length_m, "channels");
	add(g, TASK_DRAINS, (double)(GULLY_COUNTS_M * w->gully_count), "gullies, 2 m each");
	if (w->soakaway.has)
		add(g, TASK_DRAINS, SOAKAWAY_COUNTS_M, "soakaway, counted as 10 m");
}

static void gather_edging(struct gather *g)
{
	for (size_t i = 0; i < g->t->edging.count; i++) {
		const struct edging_line *l = &g->t->edging.lines[i];
		const struct plan_edging *e = &g->t->plan.edging[l->kind];
		bool bedded = e->strip_um > 0 || e->haunch_um > 0 || l->kind == EDGE_HAUNCH;

		if (e->unit_um <= 0 && !bedded)
			continue;
		g->out->haunched = g->out->haunched || bedded;
		add(g, TASK_EDGING, l->length_m, edge_kind_name(l->kind));
	}
}

static void gather_planters(struct gather *g)
{
	char words[300];

	for (size_t i = 0; i < g->t->planters.count; i++) {
		const struct planter_result *r = &g->t->planters.items[i];
		const struct planter_blocks *b = &r->blocks;

		planter_words(words, sizeof words, &g->t->plan.planters[i], i);
		if (!r->ready) {
			add_fault(g, TASK_WALL, r->fault.text);
			add_fault(g, TASK_FILL, r->fault.text);
			continue;
		}
		add(g, TASK_WALL, (double)(b->whole + b->half + b->corner + b->cut), words);
		add(g, TASK_FILL, r->fill.soil_m3 + r->fill.gravel_m3, words);
	}
}

static void gather_steps(struct gather *g)
{
	char words[60];

	for (size_t i = 0; i < g->t->steps.count; i++) {
		const struct flight *f = &g->t->steps.flights[i];
		bool built = f->steps->build == STEPS_BUILT;

		snprintf(words, sizeof words, "flight %zu%s", i + 1, built ? ", risers" : "");
		if (f->fault)
			add_fault(g, TASK_STEP, f->fault);
		else
			add(g, TASK_STEP,
			        (double)(built ? f->risers : f->order.whole + f->order.cut), words);
	}
}

/* Metres of a border's course. */
static double border_m(const struct takeoff *t, const struct section *s)
{
	int64_t pitch_um = border_size(&t->plan.borders[s->number]).pitch_across_um;

	return s->area_m2 * 1e6 / (double)pitch_um;
}

static void gather_paving(struct gather *g)
{
	const struct plan *p = &g->t->plan;

	for (size_t i = 0; i < g->t->laid.section_count; i++) {
		const struct section *s = &g->t->laid.sections[i];

		if (!s->paved)
			continue;
		if (s->kind == SECTION_BORDER)
			add(g, TASK_BORDER, border_m(g->t, s), s->name);
		else
			add(g, TASK_LAY, s->area_m2, s->name);
		if (p->ground.bedding_um > 0)
			add(g, TASK_BEDDING, s->area_m2, s->name);
		if (p->costs.materials[MATERIAL_JOINTING].used)
			add(g, TASK_JOINT, s->area_m2, s->name);
		if (p->costs.materials[MATERIAL_SEALER].used)
			add(g, TASK_SEAL, s->area_m2, s->name);
	}
	add(g, TASK_CUT, (double)g->t->laid.cut, "pieces of paving slabs");
}

int64_t labour_hours_centi(double quantity, int64_t minutes_milli)
{
	double centi = quantity * (double)minutes_milli / 600;

	if (centi <= 0)
		return 0;
	if (centi >= (double)HOURS_MOST_CENTI)
		return HOURS_MOST_CENTI;
	return centi < 1 ? 1 : llround(centi);
}

int64_t labour_crew_minutes(int64_t hours_centi, int64_t crew)
{
	return (hours_centi * 60 + crew * 100 - 1) / (crew * 100);
}

bool labour_usual_rate(const struct plan_costs *costs, enum task task)
{
	struct plan_costs usual;

	costs_init(&usual);
	return costs->task_minutes_milli[task] == usual.task_minutes_milli[task];
}

enum status labour_work_out(
        struct arena *mem, const struct takeoff *t, struct labour *out, struct error *err)
{
	struct gather g = { .mem = mem, .t = t };

	if (!t->ready)
		return error_set(err, STATUS_PLAN, "%s", t->fault.text);
	*out = (struct labour){ 0 };
	g.out = out;
	for (int i = 0; i < TASKS; i++)
		out->tasks[i].parts = out->tasks[i].fault = "";
	gather_earth(&g);
	gather_drains(&g);
	gather_edging(&g);
	gather_planters(&g);
	gather_steps(&g);
	gather_paving(&g);
	add(&g, TASK_CLEAR, 1, "whatever its size");
	if (g.failed)
		return error_memory(err);
	for (int i = 0; i < TASKS; i++) {
		struct labour_task *k = &out->tasks[i];

		k->hours_centi =
		        labour_hours_centi(k->quantity, t->plan.costs.task_minutes_milli[i]);
		out->hours_centi += k->hours_centi;
	}
	if (out->hours_centi >= HOURS_MOST_CENTI)
		return error_set(err, STATUS_PLAN,
		        "The work comes to over 10000000000 hours; look at the minutes a unit of "
		        "the tasks.");
	return STATUS_OK;
}
