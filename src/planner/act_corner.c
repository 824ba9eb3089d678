/* act_corner.c - changing corners and edges that are there. */
#include "actions.h"
#include "zones.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The chosen ring, or NULL with the reason shown. */
static const struct plan_ring *chosen(struct app *app)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);

	if (!r || app->view.at >= r->count) {
		app_refuse(app, "There is no corner yet: Enter drops one at the cursor.");
		return NULL;
	}
	return r;
}

/* The chosen ring when its chosen edge exists. */
static const struct plan_ring *chosen_edge(struct app *app)
{
	const struct plan_ring *r = chosen(app);

	if (r && !r->closed && app->view.at + 1 >= r->count) {
		app_refuse(app, "No edge leaves this corner yet: close the ring first, or choose "
		                "another with p.");
		return NULL;
	}
	return r;
}

/* Names an edit: `label`, and which zone's ring it is of. */
static void name_edit(const struct app *app, struct edit *e, const char *label)
{
	char of[40];

	snprintf(e->label, sizeof e->label, "%s%s", label, of_zone(&app->plan, app->view.ring, of));
}

static bool set_node(struct app *app, size_t at, const struct plan_node *node, const char *label)
{
	struct edit e = { .type = EDIT_NODE_SET, .ring = app->view.ring, .at = at, .node = *node };

	name_edit(app, &e, label);
	return app_edit(app, &e);
}

static bool move_corner(struct app *app, int64_t x, int64_t y)
{
	const struct plan_ring *r = chosen(app);
	struct plan_node node;
	char label[80];

	if (!r)
		return false;
	node = r->nodes[app->view.at];
	node.x_um = x;
	node.y_um = y;
	snprintf(label, sizeof label, "move corner %zu", app->view.at + 1);
	if (!within_site(app, x, y) || !set_node(app, app->view.at, &node, label))
		return false;
	app->mode = MODE_USUAL;
	choose_corner(app, app->view.ring, app->view.at);
	return true;
}

void act_carry(struct app *app, int key)
{
	(void)key;
	if (app->mode == MODE_CARRY) {
		put_down(app);
		return;
	}
	if (!chosen(app))
		return;
	choose_corner(app, app->view.ring, app->view.at);
	app->mode = MODE_CARRY;
	app_say(app,
	        "Corner %zu is picked up. Arrows carry it, Enter puts it down; or type its place.",
	        app->view.at + 1);
}

void put_down(struct app *app)
{
	if (move_corner(app, app->view.x_um, app->view.y_um))
		app_say(app, "Corner %zu is put down here.", app->view.at + 1);
}

static bool position_done(struct app *app, const char *text)
{
	int64_t x, y;

	return two_lengths(app, text, UNIT_M, &x, &y) && move_corner(app, x, y);
}

void act_position(struct app *app, int key)
{
	const struct plan_ring *r = chosen(app);
	bool typed = key >= '0' && key <= '9';
	char label[80], now[80], x[32], y[32];
	struct prompt *p;

	if (!r)
		return;
	snprintf(label, sizeof label, "Corner %zu, across ; up", app->view.at + 1);
	if (typed)
		snprintf(now, sizeof now, "%c", key);
	else
		snprintf(now, sizeof now, "%s ; %s", metres_exact(x, r->nodes[app->view.at].x_um),
		        metres_exact(y, r->nodes[app->view.at].y_um));
	p = prompt_open(app, label,
	        "Metres from 0, 0, with ; between: 3,62 ; 4,15. Typing replaces it.", now,
	        position_done);
	p->offered = !typed;
}

/* Where the cursor falls on the chosen edge, as a part of its length; 0.5 when it is not near. */
static double split_at(const struct app *app, const struct plan_node *a, const struct plan_node *b)
{
	double dx = (double)(b->x_um - a->x_um), dy = (double)(b->y_um - a->y_um),
	       square = dx * dx + dy * dy;
	double px = (double)(app->view.x_um - a->x_um), py = (double)(app->view.y_um - a->y_um);
	double part = square > 0 ? (px * dx + py * dy) / square : 0.5;
	double away = square > 0 ? fabs(px * dy - py * dx) / sqrt(square) : 0;
	double end = (double)app->view.cell_um / 4 / (square > 0 ? sqrt(square) : 1);

	return away <= (double)app->view.cell_um && part > end && part < 1 - end ? part : 0.5;
}

void act_split(struct app *app, int key)
{
	const struct plan_ring *r = chosen_edge(app);
	const struct plan_node *a, *b;
	struct edit e = {
		.type = EDIT_NODE_INSERT, .ring = app->view.ring, .at = app->view.at + 1
	};
	char label[80];
	double part;

	(void)key;
	if (!r)
		return;
	a = &r->nodes[app->view.at];
	b = &r->nodes[(app->view.at + 1) % r->count];
	if (a->rise_um) {
		app_refuse(app,
		        "Edge %zu is an arc: make it straight first (a, then 0), then split it.",
		        app->view.at + 1);
		return;
	}
	part = split_at(app, a, b);
	e.node = *a;
	e.node.x_um += llround((double)(b->x_um - a->x_um) * part);
	e.node.y_um += llround((double)(b->y_um - a->y_um) * part);
	snprintf(label, sizeof label, "split edge %zu", app->view.at + 1);
	name_edit(app, &e, label);
	if (!app_edit(app, &e))
		return;
	choose_corner(app, app->view.ring, app->view.at + 1);
	app_say(app, "Corner %zu is new. m picks it up, x types its place.", app->view.at + 1);
}

void act_delete_corner(struct app *app, int key)
{
	const struct plan_ring *r;
	size_t draft = draft_ring(&app->plan), number;
	struct edit e = { .type = EDIT_NODE_DELETE };
	char label[80];

	if (draft != SIZE_MAX) {
		size_t count = plan_ring_at(&app->plan, draft)->count;

		if (count <= 1) {
			act_delete_ring(app, key);
			return;
		}
		app->view.ring = draft;
		app->view.at = count - 1;
	}
	if (!(r = chosen(app)))
		return;
	number = app->view.at + 1;
	e.ring = app->view.ring;
	e.at = app->view.at;
	snprintf(label, sizeof label, "delete corner %zu", number);
	name_edit(app, &e, label);
	if (!app_edit(app, &e))
		return;
	r = plan_ring_at(&app->plan, app->view.ring);
	choose_corner(app, app->view.ring, app->view.at < r->count ? app->view.at : r->count - 1);
	app_say(app, "Corner %zu is deleted. u brings it back.", number);
}

void act_delete_ring(struct app *app, int key)
{
	size_t ring = draft_ring(&app->plan), zone;
	struct edit e = { .type = EDIT_RING_DELETE };
	char name[40];

	(void)key;
	if (ring == SIZE_MAX && !chosen(app))
		return;
	if (ring == SIZE_MAX)
		ring = app->view.ring;
	if (ring == 0 && plan_ring_total(&app->plan) > 1) {
		app_refuse(app, "The outline has %s: choose each (N) and delete it (D) first.",
		        app->plan.ring_count > 1 ? "openings" : "zones");
		return;
	}
	zone = zone_of_ring(&app->plan, ring);
	e.ring = ring;
	ring_words(&app->plan, ring, name);
	snprintf(e.label, sizeof e.label, "delete %s", name);
	if (zone != SIZE_MAX ? !delete_zone(app, zone) : !app_edit(app, &e))
		return;
	app->view.at = 0;
	app->mode = MODE_USUAL;
	name[0] = (char)toupper((unsigned char)name[0]);
	app_say(app, "%s is deleted. u brings it back.", name);
}

/* Whether the edge after the next one runs along edge `at`: then moving the edge between them keeps
 * every corner as square as it was. */
static bool next_can_follow(const struct plan_ring *r, size_t at)
{
	const struct plan_node *n[4];
	double ax, ay, bx, by;

	if (!r->closed || r->count < 4)
		return false;
	for (size_t i = 0; i < 4; i++)
		n[i] = &r->nodes[(at + i) % r->count];
	ax = (double)(n[1]->x_um - n[0]->x_um), ay = (double)(n[1]->y_um - n[0]->y_um);
	bx = (double)(n[3]->x_um - n[2]->x_um), by = (double)(n[3]->y_um - n[2]->y_um);
	return fabs(ax * by - ay * bx) <= 1e-6 * hypot(ax, ay) * hypot(bx, by);
}

/* Moves `count` corners from the far end of the chosen edge on. */
static bool move_far_end(struct app *app, size_t count, int64_t dx, int64_t dy, const char *label)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	struct edit e = { .type = EDIT_RING_SET, .ring = app->view.ring, .ring_value = *r };
	struct arena mem = { 0 };
	bool done = false;

	e.ring_value.nodes = arena_alloc(&mem, r->count, sizeof *r->nodes);
	name_edit(app, &e, label);
	if (!e.ring_value.nodes) {
		app_refuse(app, "No memory is left for that.");
		return false;
	}
	memcpy(e.ring_value.nodes, r->nodes, r->count * sizeof *r->nodes);
	for (size_t i = 1; i <= count; i++) {
		struct plan_node *n = &e.ring_value.nodes[(app->view.at + i) % r->count];

		n->x_um += dx;
		n->y_um += dy;
		if (!within_site(app, n->x_um, n->y_um))
			goto done;
	}
	done = app_edit(app, &e);
done:
	arena_free(&mem);
	return done;
}

static void say_length_set(struct app *app, bool follows, int64_t um)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, app->view.ring);
	size_t at = app->view.at, end = (at + 1) % r->count, after = (at + 2) % r->count;
	const char *what = r->nodes[at].rise_um ? "The chord of edge" : "Edge";
	char words[32], other[32];

	metres(words, um);
	if (follows)
		app_say(app, "%s %zu is %s m; corners %zu and %zu moved, so edge %zu is %s m now.",
		        what, at + 1, words, end + 1, after + 1, after + 1,
		        metres(other, llround(edge_length_um(r, after))));
	else
		app_say(app,
		        "%s %zu is %s m; its end, corner %zu, moved along it, and edge %zu with "
		        "that.",
		        what, at + 1, words, end + 1, end + 1);
}

static bool true_length_done(struct app *app, const char *text)
{
	const struct plan_ring *r = chosen_edge(app);
	const struct plan_node *a, *b;
	double dx, dy, now;
	char label[80], words[32];
	bool follows;
	int64_t um;

	if (!r || !typed_length(app, text, UNIT_M, &um))
		return false;
	a = &r->nodes[app->view.at];
	b = &r->nodes[(app->view.at + 1) % r->count];
	dx = (double)(b->x_um - a->x_um), dy = (double)(b->y_um - a->y_um);
	now = hypot(dx, dy);
	follows = next_can_follow(r, app->view.at);
	if (um < UM_PER_MM) {
		app_refuse(app, "An edge is 1 mm long at least.");
		return false;
	}
	if (now < 1) {
		app_refuse(app,
		        "Both ends of the edge lie in one place: move one of them first (m or x).");
		return false;
	}
	snprintf(label, sizeof label, "set edge %zu to %s m", app->view.at + 1, metres(words, um));
	if (!move_far_end(app, follows ? 2 : 1, a->x_um + llround(dx / now * (double)um) - b->x_um,
	            a->y_um + llround(dy / now * (double)um) - b->y_um, label))
		return false;
	say_length_set(app, follows, um);
	return true;
}

void act_true_length(struct app *app, int key)
{
	const struct plan_ring *r = chosen_edge(app);
	const struct plan_node *a, *b;
	char label[80], now[32];

	(void)key;
	if (!r)
		return;
	a = &r->nodes[app->view.at];
	b = &r->nodes[(app->view.at + 1) % r->count];
	snprintf(label, sizeof label, "%s of edge %zu", a->rise_um ? "Chord" : "True length",
	        app->view.at + 1);
	prompt_open(app, label,
	        "Metres, as taped. Its far end moves, and square corners stay square. Typing "
	        "replaces it.",
	        metres_exact(now,
	                llround(hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um)))),
	        true_length_done);
}

static bool arc_done(struct app *app, const char *text)
{
	const struct plan_ring *r = chosen_edge(app);
	struct plan_node node;
	char label[80], words[32];
	int64_t um;

	if (!r || !typed_length(app, text, UNIT_M, &um))
		return false;
	node = r->nodes[app->view.at];
	node.rise_um = um;
	snprintf(label, sizeof label, um ? "bend edge %zu" : "straighten edge %zu",
	        app->view.at + 1);
	if (!set_node(app, app->view.at, &node, label))
		return false;
	app_say(app, um ? "Edge %zu is an arc, %s m along it." : "Edge %zu is straight, %s m long.",
	        app->view.at + 1,
	        metres(words, llround(edge_length_um(
	                              plan_ring_at(&app->plan, app->view.ring), app->view.at))));
	return true;
}

void act_arc(struct app *app, int key)
{
	const struct plan_ring *r = chosen_edge(app);
	char label[80], now[32];

	(void)key;
	if (!r)
		return;
	snprintf(label, sizeof label, "Rise of the arc on edge %zu", app->view.at + 1);
	prompt_open(app, label,
	        "Metres over the chord: 0,25. Outward; minus bends inward, 0 is straight. "
	        "Typing replaces it.",
	        metres_exact(now, r->nodes[app->view.at].rise_um), arc_done);
}

static void kind_chosen(struct app *app, const struct list_row *row)
{
	const struct plan_ring *r = chosen_edge(app);
	struct plan_node node;
	char label[80];

	if (!r)
		return;
	node = r->nodes[app->view.at];
	node.kind = (enum edge_kind)row->id;
	snprintf(
	        label, sizeof label, "edge %zu is %s", app->view.at + 1, edge_kind_name(node.kind));
	if (set_node(app, app->view.at, &node, label))
		app_say(app, "Edge %zu: %s. n goes on to the next.", app->view.at + 1,
		        edge_kind_name(node.kind));
}

static const char *const kind_notes[EDGE_KINDS] = {
	[EDGE_HOUSE_WALL] = "no water may reach it",
	[EDGE_KERB] = "kerb on a strip and haunch; may hold water back",
	[EDGE_HAUNCH] = "flush edge, held by a haunch only",
	[EDGE_PLANTER] = "a planter's wall stands here",
	[EDGE_STEPS] = "steps lead on from here",
	[EDGE_EXISTING_PAVING] = "paving that is there and has to be met",
	[EDGE_OPEN] = "nothing: lawn, bed, gravel",
};

void act_kind(struct app *app, int key)
{
	const struct plan_ring *r = chosen_edge(app);
	char title[120], words[80];

	(void)key;
	if (!r)
		return;
	if (zone_of_ring(&app->plan, app->view.ring) != SIZE_MAX) {
		app_refuse(app, "Nothing stands along a zone's edges: s is for the sides of the "
		                "outline and of openings. i at Laying has the zone's values.");
		return;
	}
	snprintf(title, sizeof title, "What stands along edge %zu?", app->view.at + 1);
	choice_open(app, title, kind_chosen);
	for (int k = 0; k < EDGE_KINDS; k++) {
		snprintf(words, sizeof words, "%c  %s", kind_letter((enum edge_kind)k),
		        edge_kind_name((enum edge_kind)k));
		choice_add(app, words, kind_notes[k], k);
	}
	app->choice.at = (size_t)r->nodes[app->view.at].kind;
}
