/* act_choose.c - choosing what lies under the cursor: a corner, else an edge. */
#include "actions.h"
#include "zones.h"

#include <math.h>
#include <stdlib.h>

bool under_cursor(const struct app *app, const struct plan_node *n)
{
	int64_t half = app->view.cell_um / 2;

	return llabs(n->x_um - app->view.x_um) < half && llabs(n->y_um - app->view.y_um) < half;
}

double edge_distance(struct point p, struct point a, struct point b)
{
	double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
	double part = square > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / square : 0;

	part = fmin(fmax(part, 0), 1);
	return hypot(p.x - a.x - part * dx, p.y - a.y - part * dy);
}

/* Where several corners lie, each comes in turn. */
static bool choose_corner_here(struct app *app)
{
	size_t ring = app->view.ring, at = app->view.at, total = 0;
	char of[40];

	for (size_t r = 0; r < rings_here(app); r++)
		total += plan_ring_at(&app->plan, r)->count;
	for (size_t i = 0; i < total && step_corner(app, true, &ring, &at); i++) {
		if (!under_cursor(app, &plan_ring_at(&app->plan, ring)->nodes[at]))
			continue;
		choose_corner(app, ring, at);
		app_say(app, "Corner %zu%s and the edge that leaves it are chosen.", at + 1,
		        of_zone(&app->plan, ring, of));
		return true;
	}
	return false;
}

/* The edge of a zone under the cursor. */
static bool choose_zone_edge_here(struct app *app)
{
	struct point cursor = { (double)app->view.x_um, (double)app->view.y_um };
	struct arena *mem = &app->frame_mem;
	char words[32];

	for (size_t z = 0; app->place == AT_OUTLINE && z < app->plan.zone_count; z++) {
		struct ring ring;

		if (!zone_outline(app, mem, z, &ring))
			continue;
		for (size_t i = 0; i < ring.n; i++) {
			if (edge_distance(cursor, ring.p[i], ring.p[(i + 1) % ring.n]) >
			        (double)app->view.cell_um / 2)
				continue;
			app->view.ring = app->plan.ring_count + z;
			app->view.at = (size_t)ring.edge[i];
			app_say(app, "Edge %zu of zone %zu is chosen: %s m.", app->view.at + 1,
			        z + 1,
			        metres(words, llround(edge_length_um(
			                              &app->plan.zones[z].ring, app->view.at))));
			return true;
		}
	}
	return false;
}

static bool choose_edge_here(struct app *app)
{
	struct point cursor = { (double)app->view.x_um, (double)app->view.y_um };
	char words[32];

	for (size_t r = 0; app->t.ready && r < app->t.region.count; r++) {
		const struct ring *ring = &app->t.region.rings[r];

		for (size_t i = 0; i < ring->n; i++) {
			const struct plan_ring *from;

			if (edge_distance(cursor, ring->p[i], ring->p[(i + 1) % ring->n]) >
			                (double)app->view.cell_um / 2 ||
			        !plan_edge_find(&app->plan, (size_t)ring->edge[i], &app->view.ring,
			                &app->view.at))
				continue;
			from = &app->plan.rings[app->view.ring];
			app_say(app, "Edge %zu is chosen: %s m, %s.", app->view.at + 1,
			        metres(words, llround(edge_length_um(from, app->view.at))),
			        edge_kind_name(from->nodes[app->view.at].kind));
			return true;
		}
	}
	return false;
}

bool choose_here(struct app *app)
{
	return choose_corner_here(app) || choose_edge_here(app) || choose_zone_edge_here(app);
}
