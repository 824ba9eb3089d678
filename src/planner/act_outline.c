/* act_outline.c - drawing rings: corners by the cursor and by the tape. */
#include "actions.h"
#include "zones.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static struct plan_node node_at(int64_t x, int64_t y)
{
	return (struct plan_node){ .x_um = x, .y_um = y, .kind = EDGE_OPEN };
}

bool within_site(struct app *app, int64_t x, int64_t y)
{
	if (llabs(x) <= COORD_LIMIT_UM && llabs(y) <= COORD_LIMIT_UM)
		return true;
	app_refuse(app, "That corner would lie over 1 km from 0, 0: type a shorter length.");
	return false;
}

/* Whether a corner of an opening may lie there: in the paving, off its edges. Where not, says so.
 */
static bool within_paving(struct app *app, int64_t x, int64_t y)
{
	struct point at = { (double)x, (double)y };
	bool inside = !app->t.ready || region_contains(&app->t.region, at);

	for (size_t r = 0; inside && app->t.ready && r < app->t.region.count; r++) {
		const struct ring *ring = &app->t.region.rings[r];

		for (size_t i = 0; inside && i < ring->n; i++)
			inside = edge_distance(at, ring->p[i], ring->p[(i + 1) % ring->n]) >= 1000;
	}
	if (!inside)
		app_refuse(app, "An opening lies inside the paving, off its edges: move the cursor "
		                "there with the arrow keys first.");
	return inside;
}

/* Begins a ring with the given corners. */
static bool begin_ring(
        struct app *app, struct plan_node *nodes, size_t count, bool closed, const char *label)
{
	struct edit e = { .type = EDIT_RING_INSERT, .ring = app->plan.ring_count };

	e.ring_value = (struct plan_ring){ .nodes = nodes, .count = count, .closed = closed };
	snprintf(e.label, sizeof e.label, "%s", label);
	for (size_t i = 0; i < count; i++)
		if (!within_site(app, nodes[i].x_um, nodes[i].y_um))
			return false;
	if (!app_edit(app, &e))
		return false;
	choose_corner(app, app->plan.ring_count - 1, count - 1);
	view_show_all(app);
	return true;
}

static bool drop(struct app *app, size_t ring, int64_t x, int64_t y)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, ring);
	bool opening = ring && ring < app->plan.ring_count;
	struct edit e = {
		.type = EDIT_NODE_INSERT, .ring = ring, .at = r->count, .node = node_at(x, y)
	};
	char of[40];

	if (r->count && r->nodes[r->count - 1].x_um == x && r->nodes[r->count - 1].y_um == y) {
		app_refuse(app,
		        "The last corner lies here already: move the cursor, or type a length.");
		return false;
	}
	snprintf(e.label, sizeof e.label, "drop corner %zu%s", r->count + 1,
	        of_zone(&app->plan, ring, of));
	if (!within_site(app, x, y) || (opening && !within_paving(app, x, y)) || !app_edit(app, &e))
		return false;
	choose_corner(app, ring, plan_ring_at(&app->plan, ring)->count - 1);
	view_show_all(app);
	return true;
}

/* What comes next, once a ring is closed. */
static void ring_closed(struct app *app, size_t ring)
{
	size_t zone = zone_of_ring(&app->plan, ring);

	choose_corner(app, ring, 0);
	view_show_all(app);
	if (zone != SIZE_MAX)
		zone_closed(app, zone);
	else if (ring)
		app_say(app, "The opening is cut.");
	else
		app_say(app, "The outline is closed. Choose each side with n and say what stands "
		             "along it with s.");
}

static bool close_ring(struct app *app, size_t ring)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, ring);
	char name[40];
	struct edit e = { .type = EDIT_RING_SET, .ring = ring, .ring_value = *r };

	if (r->count < 3) {
		app_refuse(app, "A ring needs three corners at least; this one has %zu.", r->count);
		return false;
	}
	e.ring_value.closed = true;
	snprintf(e.label, sizeof e.label, "close %s", ring_words(&app->plan, ring, name));
	if (!app_edit(app, &e))
		return false;
	ring_closed(app, ring);
	return true;
}

void act_close(struct app *app, int key)
{
	size_t ring = draft_ring(&app->plan);

	(void)key;
	if (ring == SIZE_MAX)
		app_refuse(app, app->plan.ring_count
		                        ? "No ring is being drawn; w starts an opening, g a zone."
		                        : "There is nothing to close yet: Enter drops a corner.");
	else
		close_ring(app, ring);
}

void act_enter(struct app *app, int key)
{
	size_t ring = draft_ring(&app->plan);
	const struct plan_ring *r;

	(void)key;
	if (app->mode == MODE_CARRY) {
		put_down(app);
		return;
	}
	if (app->place == AT_OUTLINE && app->plan.ring_count == 0) {
		struct plan_node first = node_at(app->view.x_um, app->view.y_um);

		if (begin_ring(app, &first, 1, false, "drop corner 1"))
			app_say(app, "Corner 1. Now type a taped length and press an arrow key, or "
			             "move and Enter.");
		return;
	}
	if (app->place != AT_OUTLINE || ring == SIZE_MAX) {
		if (!choose_here(app))
			app_refuse(
			        app, app->place == AT_OUTLINE
			                     ? "No corner or edge lies here. n chooses the next; w "
			                       "starts an opening, g a zone."
			                     : "No corner or edge lies here.");
		return;
	}
	r = plan_ring_at(&app->plan, ring);
	if (r->count >= 3 && under_cursor(app, &r->nodes[0]))
		close_ring(app, ring);
	else
		drop(app, ring, app->view.x_um, app->view.y_um);
}

/* Drops the next corner at a length and angle from the last one; starts the outline where there is
 * none. */
static bool drop_toward(struct app *app, int64_t length, int64_t udeg)
{
	size_t ring = draft_ring(&app->plan);
	const struct plan_ring *r = plan_ring_at(&app->plan, ring);
	int64_t x = r ? r->nodes[r->count - 1].x_um : app->view.x_um;
	int64_t y = r ? r->nodes[r->count - 1].y_um : app->view.y_um;
	double cosine, sine;
	struct plan_node two[2];

	turn_of(udeg, &cosine, &sine);
	two[0] = node_at(x, y);
	two[1] = node_at(x + llround((double)length * cosine), y + llround((double)length * sine));
	if (!r)
		return begin_ring(app, two, 2, false, "drop corners 1 and 2");
	if (r->count >= 3 && two[1].x_um == r->nodes[0].x_um && two[1].y_um == r->nodes[0].y_um)
		return close_ring(app, ring);
	return drop(app, ring, two[1].x_um, two[1].y_um);
}

static int64_t arrow_udeg(int key)
{
	return (key == KEY_OF_ARROW_RIGHT         ? 0
	               : key == KEY_OF_ARROW_UP   ? 90
	               : key == KEY_OF_ARROW_LEFT ? 180
	                                          : 270) *
	       UDEG_PER_DEG;
}

static bool angle_arrow(struct app *app, int key, const char *text)
{
	(void)text;
	return drop_toward(app, app->prompt.number, arrow_udeg(key));
}

static bool angle_done(struct app *app, const char *text)
{
	int64_t udeg;
	struct error err;

	if (angle_parse(text, &udeg, &err) != STATUS_OK)
		return app_fail(app, &err);
	return drop_toward(app, app->prompt.number, udeg);
}

static bool drawn_length(struct app *app, const char *text, int64_t *um)
{
	if (!typed_length(app, text, UNIT_M, um))
		return false;
	if (*um < UM_PER_MM) {
		app_refuse(app, "A length between two corners is 1 mm at least.");
		return false;
	}
	return true;
}

static bool length_arrow(struct app *app, int key, const char *text)
{
	int64_t um;

	return drawn_length(app, text, &um) && drop_toward(app, um, arrow_udeg(key));
}

static bool length_done(struct app *app, const char *text)
{
	int64_t um;
	struct prompt *p;

	if (!drawn_length(app, text, &um))
		return false;
	p = prompt_open(app, "Angle in degrees",
	        "0 is right, 90 up, anticlockwise; 22,5 or -45 will do. Or press an arrow key.", "",
	        angle_done);
	p->arrow = angle_arrow;
	p->number = um;
	return true;
}

void act_length(struct app *app, int key)
{
	char first[2] = { (char)key, '\0' };
	size_t draft = draft_ring(&app->plan);
	struct prompt *p;

	if (app->mode == MODE_CARRY) {
		act_position(app, key);
		return;
	}
	if (app->plan.ring_count && draft == SIZE_MAX) {
		app_refuse(app, "No ring is being drawn. t sets the true length of the chosen "
		                "edge, w starts an opening, g a zone.");
		return;
	}
	if (draft != SIZE_MAX && !plan_ring_at(&app->plan, draft)->count) {
		app_refuse(app, "Enter drops its first corner at the cursor; then type lengths.");
		return;
	}
	p = prompt_open(app, "Length from the last corner",
	        "Metres: 3,62 or 362 cm or 11' 10 1/2\". Then an ARROW KEY for the direction; "
	        "Enter: angle.",
	        first, length_done);
	p->offered = false;
	p->arrow = length_arrow;
}

/* Whether a ring is begun: it has its first corner, and no other. */
bool ring_is_begun(const struct app *app)
{
	const struct plan_ring *r = plan_ring_at(&app->plan, draft_ring(&app->plan));

	return r && r->count == 1;
}

/* Makes the ring that is begun a rectangle. */
static bool square_ring(struct app *app, size_t ring, struct plan_node nodes[4])
{
	struct edit e = { .type = EDIT_RING_SET, .ring = ring };
	char name[40];

	e.ring_value = (struct plan_ring){ .nodes = nodes, .count = 4, .closed = true };
	snprintf(
	        e.label, sizeof e.label, "make %s a rectangle", ring_words(&app->plan, ring, name));
	for (int i = 1; i < 4; i++)
		if (!within_site(app, nodes[i].x_um, nodes[i].y_um))
			return false;
	return app_edit(app, &e);
}

static bool rectangle_done(struct app *app, const char *text)
{
	int64_t width, height, x = app->view.x_um, y = app->view.y_um;
	size_t ring = draft_ring(&app->plan);
	struct plan_node nodes[4];

	if (!two_lengths(app, text, UNIT_M, &width, &height))
		return false;
	if (width < UM_PER_MM || height < UM_PER_MM) {
		app_refuse(app, "Width and height are 1 mm at least.");
		return false;
	}
	if (ring != SIZE_MAX && !ring_is_begun(app)) {
		app_refuse(app, "The ring has more corners than its first: Esc, then c closes it.");
		return false;
	}
	if (ring != SIZE_MAX) {
		x = plan_ring_at(&app->plan, ring)->nodes[0].x_um;
		y = plan_ring_at(&app->plan, ring)->nodes[0].y_um;
	}
	for (int i = 0; i < 4; i++)
		nodes[i] = node_at(x + (i == 1 || i == 2 ? width : 0), y + (i >= 2 ? height : 0));
	if (ring != SIZE_MAX ? !square_ring(app, ring, nodes)
	                     : !begin_ring(app, nodes, 4, true,
	                               app->plan.ring_count ? "cut a rectangular opening"
	                                                    : "draw a rectangle"))
		return false;
	if (ring == SIZE_MAX)
		ring = app->plan.ring_count - 1;
	if (ring == 0)
		view_fit(app);
	ring_closed(app, ring);
	return true;
}

void act_rectangle(struct app *app, int key)
{
	size_t ring = draft_ring(&app->plan);
	char name[40], label[80];

	(void)key;
	if (ring != SIZE_MAX && !ring_is_begun(app)) {
		app_refuse(app, "A ring is being drawn: close it first (c), or delete it (D).");
		return;
	}
	if (ring == SIZE_MAX && app->plan.ring_count &&
	        !within_paving(app, app->view.x_um, app->view.y_um))
		return;
	if (ring != SIZE_MAX)
		ring_words(&app->plan, ring, name);
	else
		snprintf(name, sizeof name, app->plan.ring_count ? "opening" : "outline");
	name[0] = (char)toupper((unsigned char)name[0]);
	snprintf(label, sizeof label, "%s, width x height", name);
	prompt_open(app, label,
	        ring == SIZE_MAX ? "Metres: 6,2 x 4,15. Its lower left corner comes to the cursor."
	                         : "Metres: 1,2 x 3. Its lower left corner is corner 1.",
	        "", rectangle_done);
}

void act_opening(struct app *app, int key)
{
	struct plan_node first = node_at(app->view.x_um, app->view.y_um);

	(void)key;
	if (app->plan.ring_count == 0) {
		app_refuse(app, "Draw the outline first; openings are cut in it.");
		return;
	}
	if (draft_ring(&app->plan) != SIZE_MAX) {
		app_refuse(app, "A ring is being drawn: close it first (c), or delete it (D).");
		return;
	}
	if (!within_paving(app, first.x_um, first.y_um))
		return;
	if (begin_ring(app, &first, 1, false, "start an opening"))
		app_say(app, "Corner 1 of the opening. Type lengths with arrows, or move and "
		             "Enter; c closes it. r makes a rectangle from here.");
}
