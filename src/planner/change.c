/* change.c - from an edit to a fresh take-off.
 *
 * An edit is first tried on a copy in memory. Rings that are closed must make a sound outline and
 * sound zones there, and a plan that has figures must still have them, or the edit is refused and
 * nothing is stored. What the store has taken is read back and worked out in a new arena; only then
 * the old one goes, so that a failure leaves the screen as it was. */
#include "actions.h"
#include "form.h"
#include "zones.h"

#include <stdio.h>
#include <string.h>

size_t draft_ring(const struct plan *plan)
{
	for (size_t i = 0; i < plan_ring_total(plan); i++)
		if (!plan_ring_at(plan, i)->closed)
			return i;
	return SIZE_MAX;
}

/* The plan without the opening or zone that is still being drawn; the rings are shared. */
static enum status without_draft(
        struct arena *mem, const struct plan *from, struct plan *to, struct error *err)
{
	struct plan_ring *rings = arena_alloc(mem, from->ring_count + 1, sizeof *rings);
	struct plan_zone *zones = arena_alloc(mem, from->zone_count + 1, sizeof *zones);

	if (!rings || !zones)
		return error_memory(err);
	*to = *from;
	to->rings = rings;
	to->zones = zones;
	to->ring_count = to->zone_count = 0;
	for (size_t i = 0; i < from->ring_count; i++)
		if (from->rings[i].closed)
			rings[to->ring_count++] = from->rings[i];
	for (size_t i = 0; i < from->zone_count; i++)
		if (from->zones[i].ring.closed)
			zones[to->zone_count++] = from->zones[i];
	return STATUS_OK;
}

/* Works out the plan read last, leaving out what is being drawn. */
static enum status take_off(
        struct app *app, struct arena *mem, struct takeoff *t, bool *drafting, struct error *err)
{
	struct plan *closed;
	struct rules *rules;
	size_t draft;
	enum status st = takeoff_variant(mem, app->store, app->variant, t, err);

	*drafting = false;
	if (st != STATUS_OK)
		return st;
	draft = draft_ring(&t->plan);
	if (t->ready || draft == SIZE_MAX || draft == 0)
		return STATUS_OK;
	closed = arena_alloc(mem, 1, sizeof *closed);
	rules = arena_alloc(mem, 1, sizeof *rules);
	if (!closed || !rules)
		return error_memory(err);
	*rules = t->rules;
	if ((st = without_draft(mem, &t->plan, closed, err)) != STATUS_OK)
		return st;
	*drafting = true;
	return takeoff_plan(mem, closed, rules, t, err);
}

void keep_choice_in_range(struct app *app)
{
	struct view *v = &app->view;
	size_t rings = rings_here(app);
	const struct plan_ring *r;

	keep_part_in_range(app);
	if (rings < plan_ring_total(&app->plan) && v->ring >= rings)
		v->ring = v->at = 0; /* a zone's corner is for Outline only */
	if (v->ring >= rings)
		v->ring = rings ? rings - 1 : 0;
	r = plan_ring_at(&app->plan, v->ring);
	if (!r || v->at >= r->count)
		v->at = r && r->count ? r->count - 1 : 0;
}

bool app_reload(struct app *app)
{
	struct arena mem = { 0 };
	struct plan plan;
	struct takeoff t = { 0 };
	struct error err;
	bool drafting;

	if (store_plan(app->store, app->variant, &mem, &plan, &err) != STATUS_OK ||
	        take_off(app, &mem, &t, &drafting, &err) != STATUS_OK) {
		arena_free(&mem);
		return app_fail(app, &err);
	}
	arena_free(&app->work);
	app->work = mem;
	app->plan = plan;
	app->t = t;
	app->drafting = drafting;
	takeoff_improve(&app->work, &app->t, FIRST_LOOKS);
	keep_choice_in_range(app);
	view_keep_whole(app);
	return true;
}

static bool has_outline(const struct plan *plan)
{
	return plan->ring_count && plan->rings[0].closed;
}

/* Whether the plan has a sound outline and sound zones; one still being drawn is not judged. */
static enum status sound(struct arena *mem, const struct plan *plan, struct error *err)
{
	struct plan closed;
	enum status st;

	if (!has_outline(plan))
		return STATUS_OK;
	if ((st = without_draft(mem, plan, &closed, err)) != STATUS_OK)
		return st;
	return plan_rings_check(&closed, err);
}

/* Whether a plan that has figures still can be laid: what could be must not become what cannot. */
static enum status still_laid(
        const struct app *app, struct arena *mem, const struct plan *plan, struct error *err)
{
	struct plan closed;
	struct takeoff t;
	enum status st;

	if (!app->t.ready || !has_outline(plan))
		return STATUS_OK;
	if ((st = without_draft(mem, plan, &closed, err)) != STATUS_OK ||
	        (st = takeoff_plan(mem, &closed, &app->t.rules, &t, err)) != STATUS_OK || t.ready)
		return st;
	return error_set(err, STATUS_PLAN, "%s", t.fault.text);
}

static bool changes_rings(const struct edit *edit)
{
	return edit->type <= EDIT_RING_SET || edit->type == EDIT_ZONES || edit->type == EDIT_DRAINS;
}

static bool changes_paving(const struct edit *edit)
{
	return changes_rings(edit) || edit->type == EDIT_LAYING || edit->type == EDIT_BORDERS;
}

static enum status try_edits(
        struct app *app, const struct edit *edits, size_t count, struct error *err)
{
	struct arena mem = { 0 };
	struct plan tried;
	bool rings = false, paving = false;
	enum status st = plan_copy(&mem, &app->plan, &tried, err);

	for (size_t i = 0; i < count && st == STATUS_OK; i++) {
		st = edit_apply(&mem, &tried, &edits[i], NULL, err);
		rings = rings || changes_rings(&edits[i]);
		paving = paving || changes_paving(&edits[i]);
	}
	if (st == STATUS_OK && rings && sound(&mem, &app->plan, NULL) != STATUS_PLAN)
		st = sound(&mem, &tried, err);
	if (st == STATUS_OK && paving)
		st = still_laid(app, &mem, &tried, err);
	arena_free(&mem);
	return st;
}

bool app_edits(struct app *app, const struct edit *edits, size_t count)
{
	struct error err;

	if (try_edits(app, edits, count, &err) != STATUS_OK)
		return app_fail(app, &err);
	for (size_t i = 0; i < count; i++) {
		if (store_edit(app->store, app->variant, &edits[i], &err) == STATUS_OK)
			continue;
		for (bool done = true; i && done; i--) /* the first ones back; err is theirs */
			if (store_undo(app->store, app->variant, &done, (char[80]){ "" }, NULL) !=
			        STATUS_OK)
				break;
		app_reload(app);
		return app_fail(app, &err);
	}
	return app_reload(app);
}

bool app_edit(struct app *app, const struct edit *edit)
{
	return app_edits(app, edit, 1);
}

static void step_back_or_forth(struct app *app, bool back)
{
	struct error err;
	char label[80] = "";
	bool done = false;
	enum status st;

	if (!app->variant) {
		app_refuse(app, "No variant is open.");
		return;
	}
	if (app->place == AT_CHOICE && !form_is_open(app)) {
		app_refuse(app, "Choose a row with Enter, or go back with Esc; then %s.",
		        back ? "u undoes" : "U does again what was undone");
		return;
	}
	st = back ? store_undo(app->store, app->variant, &done, label, &err)
	          : store_redo(app->store, app->variant, &done, label, &err);
	if (st != STATUS_OK) {
		app_fail(app, &err);
		return;
	}
	if (!done) {
		app_refuse(app, back ? "Nothing to undo: this is how the variant began."
		                     : "Nothing to redo.");
		return;
	}
	app->mode = MODE_USUAL;
	if (!app_reload(app))
		return;
	if (app->place == AT_VARIANTS) /* its figures have changed */
		list_again(app, 0);
	form_again(app);
	app_say(app, back ? "Undone: %s. U does it again." : "Done again: %s. u undoes it.", label);
}

void app_undo(struct app *app, int key)
{
	(void)key;
	step_back_or_forth(app, true);
}

void app_redo(struct app *app, int key)
{
	(void)key;
	step_back_or_forth(app, false);
}

/* What could be laid must not become what cannot. */
static bool bond_fits(
        struct app *app, const struct plan_laying *now, const struct plan_laying *laying)
{
	struct pattern pattern;
	struct error err;

	if (pattern_make(laying, &pattern, &err) == STATUS_OK)
		return true;
	if (laying->bond == now->bond && pattern_make(now, &pattern, NULL) != STATUS_OK)
		return true;
	return app_fail(app, &err);
}

bool edit_field(struct app *app, const char *label, const struct plan_laying *laying)
{
	struct edit e = { .type = EDIT_LAYING, .laying = *laying };

	snprintf(e.label, sizeof e.label, "%s", label);
	return bond_fits(app, &app->plan.laying, laying) && app_edit(app, &e);
}

bool edit_laying(struct app *app, const char *label, const struct plan_laying *laying)
{
	size_t at = zone_here(app);
	struct plan_zone zone;
	char words[80];

	if (at == SIZE_MAX)
		return edit_field(app, label, laying);
	zone = app->plan.zones[at];
	zone.laying = *laying;
	snprintf(words, sizeof words, "%s, zone %zu", label, at + 1);
	return bond_fits(app, laying_here(app), laying) && edit_zone(app, words, at, &zone);
}

bool edit_surface(struct app *app, const char *label, const struct plan_surface *surface)
{
	struct edit e = { .type = EDIT_SURFACE, .surface = *surface };

	snprintf(e.label, sizeof e.label, "%s", label);
	return app_edit(app, &e);
}
