/* steps.c - flights, one after another: values in reach, levels, then the parts in order. */
#include "steps_parts.h"

#include "slabwright/surface.h"

#include <math.h>
#include <string.h>

const char *steps_piece_name(const struct plan_steps *steps)
{
	return steps->build == STEPS_BUILT ? "tread slab" : "step unit";
}

int64_t steps_made_um(const struct plan_steps *steps, int64_t tread_fall_um)
{
	int64_t tread = steps->build == STEPS_BUILT ? steps->tread_um : 0;

	return steps->unit_height_um + steps->bed_um + tread + tread_fall_um;
}

enum status steps_note(struct flight *f, const char *text, struct error *err)
{
	if (!text)
		return error_memory(err);
	f->notes[f->note_count++] = text;
	return STATUS_OK;
}

/* --- levels --- */

static enum status set_levels(const struct steps_job *job, struct flight *f, struct error *err)
{
	const struct plan_steps *s = f->steps;

	f->bottom_um = s->bottom_um;
	if (!s->has_top && !job->plan->surface.count) {
		f->fault =
		        "The paving has no levels, so the rise is not known. Set a fall, or give "
		        "the flight a level at its top.";
		return STATUS_OK;
	}
	f->top_um = s->has_top ? s->top_um
	                       : llround(surface_level_um(
	                                 &job->plan->surface, (double)s->x_um, (double)s->y_um));
	f->rise_um = f->top_um - f->bottom_um;
	if (f->rise_um > 0)
		return STATUS_OK;
	if (f->rise_um == 0)
		f->fault = arena_print(job->mem,
		        "Steps with no rise: top and foot both lie at %g mm. Change a level, or "
		        "take the steps away.",
		        (double)f->top_um / 1000);
	else
		f->fault = arena_print(job->mem,
		        "The steps rise the wrong way: the foot at %g mm lies %g mm over the top "
		        "at %g mm. A flight goes down from the paving; change its levels.",
		        (double)f->bottom_um / 1000, (double)-f->rise_um / 1000,
		        (double)f->top_um / 1000);
	return f->fault ? STATUS_OK : error_memory(err);
}

static enum status check_values(const struct steps_job *job, struct flight *f, struct error *err)
{
	struct error why = { 0 };
	const char *words;

	if (f->steps->build == STEPS_BUILT && f->steps->tread_um <= 0) {
		f->fault = "Built-up steps need the thickness of the tread. Give it.";
		return STATUS_OK;
	}
	if (steps_check(f->steps, 1, "", &why) == STATUS_OK)
		return STATUS_OK;
	words = strstr(why.text, "]."); /* behind "steps[0].": the flight is known */
	f->fault = arena_text(job->mem, words ? words + 2 : why.text);
	return f->fault ? STATUS_OK : error_memory(err);
}

/* --- the whole flight --- */

static void set_masses(const struct steps_job *job, struct flight *f)
{
	const struct plan_steps *s = f->steps;
	bool built = s->build == STEPS_BUILT;
	const struct step_order *order = built ? &f->slabs : &f->order;
	double kg = block_mass_kg(s->unit_length_um, s->unit_depth_um,
	        built ? s->tread_um : s->unit_height_um, s->unit_density_kg_m3);

	f->handling = handling_of(job->rules, kg);
	f->mass_kg = kg * (double)order->units;
	f->price_minor = s->unit_price_minor < 0 ? -1 : s->unit_price_minor * order->units;
}

static void set_sides(struct flight *f)
{
	const struct plan_steps *s = f->steps;
	double going = (double)s->going_um * 1e-6;

	f->landing_m2 = (double)s->landing_um * (double)s->width_um * 1e-12;
	if (!s->flank_um)
		return;
	f->flank_m = (double)f->run_um * 1e-6;
	for (size_t i = 0; i + 1 < f->row_count; i++)
		f->flank_m2 += going * (double)(f->rows[i].level_um - f->bottom_um) * 1e-6;
}

static enum status work_out(const struct steps_job *job, struct flight *f, struct error *err)
{
	const struct plan_steps *s = f->steps;
	enum status st;

	f->price_minor = -1;
	if ((st = set_levels(job, f, err)) != STATUS_OK || f->fault)
		return st;
	if ((st = check_values(job, f, err)) != STATUS_OK || f->fault)
		return st;
	f->tread_fall_um = s->going_um * s->tread_fall_um_per_m / UM_PER_M;
	if ((st = steps_choose(job, f, err)) != STATUS_OK || f->fault)
		return st;
	f->run_um = (f->risers - 1) * s->going_um;
	if ((st = steps_check_rules(job, f, err)) != STATUS_OK ||
	        (st = steps_set_rows(job, f, err)) != STATUS_OK ||
	        (st = steps_set_pieces(job, f, err)) != STATUS_OK || f->fault)
		return st;
	set_masses(job, f);
	set_sides(f);
	return steps_say(job, f, err);
}

enum status steps_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct steps_result *out, struct error *err)
{
	struct steps_job job = { mem, plan, rules };
	enum status st = STATUS_OK;

	*out = (struct steps_result){ .flights = arena_alloc(
		                              mem, plan->steps_count, sizeof *out->flights) };
	if (!out->flights)
		return error_memory(err);
	for (size_t i = 0; i < plan->steps_count && st == STATUS_OK; i++) {
		struct flight *f = &out->flights[out->count++];

		*f = (struct flight){ .steps = &plan->steps[i] };
		st = work_out(&job, f, err);
	}
	return st;
}
