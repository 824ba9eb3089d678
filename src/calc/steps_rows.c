/* steps_rows.c - how the rows of a flight stand one on another, and what is to be said of it. */
#include "steps_parts.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>

#define MM UM_PER_MM

enum { BED_AS_PLANNED_UM = 5000 }; /* a bed that differs by less is no news */

static double mm(int64_t um)
{
	return (double)um / 1000;
}

/* --- rows --- */

static void set_row(struct flight *f, int64_t i)
{
	const struct plan_steps *s = f->steps;
	bool built = s->build == STEPS_BUILT, top = i == f->risers - 1;
	struct step_row *r = &f->rows[i];
	int64_t nosing = (f->risers - 1 - i) * s->going_um;
	int64_t room, spare;

	r->level_um = f->bottom_um + f->rise_um * (i + 1) / f->risers;
	r->riser_um = r->level_um - (i ? f->rows[i - 1].level_um : f->bottom_um);
	r->visible_um = r->riser_um - (i ? f->tread_fall_um : 0);
	r->face_um = nosing - (built ? s->overhang_um : 0);
	if (!built || !top) {
		r->front_um = nosing;
		r->back_um = nosing - (built ? s->going_um + s->overhang_um : s->unit_depth_um);
	}
	/* From what lies before the row up to where the unit's top, or the riser piece's, should
	 * be; a piece that is too low stands on the former, and the bed on it grows. */
	r->top_um = r->level_um - (built ? s->tread_um + s->bed_um : 0);
	room = r->visible_um - (r->level_um - r->top_um);
	spare = room - s->unit_height_um;
	if (built && spare > 0)
		r->top_um -= spare;
	r->underside_um = r->top_um - s->unit_height_um;
	r->sunk_um = spare < 0 ? -spare : 0;
	if (built)
		r->bed_um = s->bed_um + (spare > 0 ? spare : 0);
	else if (r->sunk_um && (i == 0 || s->unit_depth_um <= s->going_um))
		r->bed_um = s->bed_um; /* in the ground there is room for any bed */
	else
		r->bed_um = spare;
}

static void set_stack(const struct steps_job *job, struct flight *f)
{
	int64_t made = steps_made_um(f->steps, f->tread_fall_um);
	struct step_stack *k = &f->stack;

	k->risers = (f->rise_um + made - 1) / made;
	k->riser_um = k->risers > 1 ? made : f->rise_um;
	k->bottom_um = f->rise_um - (k->risers - 1) * made;
	k->sunk_um = f->steps->unit_height_um > k->bottom_um
	                     ? f->steps->unit_height_um - k->bottom_um
	                     : 0;
	k->even = rules_find(job->rules, "riser_spread_max")
	                  ? risers_alike(
	                            job->rules, (const int64_t[]){ k->riser_um, k->bottom_um }, 2)
	                  : llabs(k->riser_um - k->bottom_um) <= MM;
}

enum status steps_set_rows(const struct steps_job *job, struct flight *f, struct error *err)
{
	const struct plan_steps *s = f->steps;

	f->rows = arena_alloc(job->mem, (size_t)f->risers, sizeof *f->rows);
	if (!f->rows)
		return error_memory(err);
	f->row_count = (size_t)f->risers;
	for (int64_t i = 0; i < f->risers; i++)
		set_row(f, i);
	if (s->build == STEPS_UNITS) {
		f->overlap_um = s->unit_depth_um - s->going_um;
		set_stack(job, f);
	}
	return STATUS_OK;
}

/* --- words --- */

/* Of the bed between two rows, whose least room the upper rows share but for 1 um. */
static const char *say_bed(const struct steps_job *job, const struct flight *f)
{
	const struct plan_steps *s = f->steps;
	const struct step_row *r = &f->rows[f->row_count - 1];
	const char *piece = s->build == STEPS_BUILT ? "riser piece" : "unit";

	if (f->risers == 1 && (s->build == STEPS_UNITS || r->sunk_um))
		return "";
	if (r->bed_um < 0)
		return arena_print(job->mem,
		        "A unit %g mm high does not go on the one below: risers of %.1f mm show "
		        "%g mm behind a tread, so they would stand in one another by %g mm. Take "
		        "lower units or fewer risers, or a going of %g mm or more, so that each "
		        "stands in the ground behind the one before it.",
		        mm(s->unit_height_um), f->riser_um / 1000, mm(r->visible_um),
		        mm(-r->bed_um), mm(s->unit_depth_um));
	if (r->sunk_um)
		return arena_print(job->mem,
		        "From the second row up each %s sinks %g mm behind the tread before it.",
		        piece, mm(r->sunk_um));
	if (r->bed_um > STEPS_MOST_BED_UM && r->bed_um > s->bed_um)
		return arena_print(job->mem,
		        "The %ss are too low: a bed of %g mm would be needed to make the riser, "
		        "and %g mm is thick (common practice). Take higher ones.",
		        piece, mm(r->bed_um), mm(STEPS_MOST_BED_UM));
	if (r->bed_um > s->bed_um + BED_AS_PLANNED_UM)
		return arena_print(job->mem,
		        "The bed is %g mm instead of %g mm, so that all risers are equal.",
		        mm(r->bed_um), mm(s->bed_um));
	if (r->bed_um < s->bed_um - BED_AS_PLANNED_UM)
		return arena_print(job->mem,
		        "The bed is only %g mm instead of %g mm, so that all risers are equal.",
		        mm(r->bed_um), mm(s->bed_um));
	return "";
}

static const char *say_bottom(const struct steps_job *job, const struct flight *f)
{
	const struct step_row *r = &f->rows[0];
	const char *piece = f->steps->build == STEPS_BUILT ? "riser piece" : "unit";

	if (r->sunk_um)
		return arena_print(job->mem,
		        "The bottom %s sinks %g mm into the ground; %g mm of the riser show.",
		        piece, mm(r->sunk_um), mm(r->visible_um));
	if (r->bed_um > 0 && f->steps->build == STEPS_UNITS)
		return arena_print(job->mem,
		        "The bottom %s ends %g mm over the level of the foot: its bed or "
		        "foundation "
		        "shows by that, or take one of %g mm or more for the bottom row.",
		        piece, mm(r->bed_um), mm(f->steps->unit_height_um + r->bed_um));
	return "";
}

static const char *say_overlap(const struct steps_job *job, const struct flight *f)
{
	if (f->steps->build == STEPS_BUILT || f->risers < 2)
		return "";
	if (f->overlap_um < 0)
		return arena_print(job->mem,
		        "Units %g mm deep leave %g mm of each tread open at a going of %g mm. Take "
		        "deeper units or a shorter going.",
		        mm(f->steps->unit_depth_um), mm(-f->overlap_um), mm(f->steps->going_um));
	if (f->overlap_um < STEPS_OVERLAP_UM && f->rows[f->row_count - 1].bed_um >= 0)
		return arena_print(job->mem,
		        "Only %g mm of a unit lie under the next; %g mm is the least (common "
		        "practice). Shorten the going, or give each a bed of its own.",
		        mm(f->overlap_um), mm(STEPS_OVERLAP_UM));
	return "";
}

static const char *say_going(const struct steps_job *job, const struct flight *f)
{
	if (f->obeys ||
	        (f->steps->going_um >= f->going_least_um && f->steps->going_um <= f->going_most_um))
		return "";
	if (f->going_most_um < f->going_least_um)
		return arena_print(job->mem,
		        "No going obeys the rule set with %" PRId64
		        " risers of %.1f mm. Change their number or the levels.",
		        f->risers, f->riser_um / 1000);
	if (f->going_most_um == INT64_MAX)
		return arena_print(job->mem,
		        "With risers of %.1f mm a going of %.1f mm or more obeys the rule set.",
		        f->riser_um / 1000, (double)f->going_least_um / 1000);
	return arena_print(job->mem,
	        "With risers of %.1f mm a going of %.1f to %.1f mm obeys the rule set.",
	        f->riser_um / 1000, (double)f->going_least_um / 1000,
	        (double)f->going_most_um / 1000);
}

static const char *say_other(const struct steps_job *job, const struct flight *f)
{
	if (!f->other_risers)
		return "";
	return arena_print(job->mem,
	        "%" PRId64
	        " riser%s of %.1f mm would suit the %s better (%g mm with bed and fall).",
	        f->other_risers, f->other_risers == 1 ? "" : "s",
	        (double)f->rise_um / (double)f->other_risers / 1000,
	        f->steps->build == STEPS_BUILT ? "riser piece" : "unit",
	        mm(steps_made_um(f->steps, f->tread_fall_um)));
}

static const char *say_stack(const struct steps_job *job, const struct flight *f)
{
	const struct step_stack *k = &f->stack;
	const char *sunk = "";

	if (f->steps->build == STEPS_BUILT || k->risers < 2 || k->bottom_um == k->riser_um)
		return "";
	if (k->sunk_um)
		sunk = arena_print(job->mem, ", sunk by %g mm", mm(k->sunk_um));
	if (!sunk)
		return NULL;
	return arena_print(job->mem,
	        "Stacked as they come, %" PRId64
	        " units rise %g mm each, but the bottom one %g mm%s: %s.",
	        k->risers, mm(k->riser_um), mm(k->bottom_um), sunk,
	        k->even ? "near enough" : "uneven, and a trip; make all risers equal");
}

static const char *say_straps(const struct steps_job *job, const struct flight *f)
{
	if (f->steps->build == STEPS_BUILT || f->handling.lift == LIFT_ONE)
		return "";
	return arena_print(job->mem,
	        "Stop the bed %g mm short of both ends of a unit, so that lifting straps come out "
	        "(common practice).%s",
	        mm(STEPS_STRAP_UM),
	        f->steps->flank_um ? " Build the flank walls after the units." : "");
}

static const char *say_sides(const struct steps_job *job, const struct flight *f)
{
	if (!f->handrail && !f->guard)
		return "";
	return arena_print(job->mem, "The rule set wants %s%s%s.", f->handrail ? "a handrail" : "",
	        f->handrail && f->guard ? " and " : "",
	        f->guard ? "open sides guarded against a fall" : "");
}

static const char *say_single(const struct steps_job *job, const struct flight *f)
{
	(void)job;
	return f->risers == 1 ? "A single step is easily missed: make its edge seen." : "";
}

enum status steps_say(const struct steps_job *job, struct flight *f, struct error *err)
{
	static const char *(*const sayings[])(
	        const struct steps_job *, const struct flight *) = { say_bed, say_bottom,
		say_overlap, say_going, say_other, say_stack, say_straps, say_sides, say_single };
	enum status st = STATUS_OK;

	_Static_assert(
	        sizeof sayings / sizeof *sayings <= sizeof f->notes / sizeof *f->notes, "room");
	for (size_t i = 0; i < sizeof sayings / sizeof *sayings && st == STATUS_OK; i++) {
		const char *text = sayings[i](job, f);

		if (!text || *text)
			st = steps_note(f, text, err);
	}
	return st;
}
