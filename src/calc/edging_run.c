/* edging_run.c - how long the units along an edge run: corners, and the split into units. */
#include "slabwright/edging.h"

#include <math.h>

static const double SHARPEST_TURN = 150; /* degrees */
static const double GENTLEST_BUTT = 45; /* a gentler corner is mitred */
static const double RIGHT_WITHIN = 1; /* a corner piece fits a right angle within so much */

/* The angle, radians, between an edge's chord and its tangent at the ends, positive where it bulges
 * away from the enclosed area. */
static double tangent_rad(const struct plan_ring *ring, size_t at)
{
	const struct plan_node *a = &ring->nodes[at], *b = &ring->nodes[(at + 1) % ring->count];
	double chord = hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um));

	return 2 * atan2(2 * (double)a->rise_um, chord);
}

static double chord_rad(const struct plan_ring *ring, size_t at)
{
	const struct plan_node *a = &ring->nodes[at], *b = &ring->nodes[(at + 1) % ring->count];

	return atan2((double)(b->y_um - a->y_um), (double)(b->x_um - a->x_um));
}

double edging_turn_rad(const struct plan_ring *ring, size_t at, bool opening)
{
	size_t before = (at + ring->count - 1) % ring->count;
	double turn = remainder(chord_rad(ring, at) - chord_rad(ring, before), 2 * M_PI);

	if (ring_signed_area2_um2(ring) < 0)
		turn = -turn;
	turn = remainder(turn - tangent_rad(ring, at) - tangent_rad(ring, before), 2 * M_PI);
	return opening ? -turn : turn;
}

double edging_arc_rad(const struct plan_ring *ring, size_t at, bool opening)
{
	double turn = 2 * tangent_rad(ring, at);

	return opening ? -turn : turn;
}

double edging_corner_growth(const struct plan_ring *ring, size_t at, bool opening)
{
	double most = SHARPEST_TURN * M_PI / 180;

	return tan(fmax(-most, fmin(edging_turn_rad(ring, at, opening), most)) / 2);
}

int64_t edging_mitre_um(const struct plan_ring *ring, size_t at, bool opening, int64_t depth_um)
{
	return llround(fmax(0, (double)depth_um * edging_corner_growth(ring, at, opening)));
}

bool edging_meets_own(const struct plan_ring *ring, size_t at)
{
	return ring->nodes[(at + ring->count - 1) % ring->count].kind == ring->nodes[at].kind;
}

bool edging_takes_corner(const struct plan *plan, size_t ring, size_t at)
{
	const struct plan_ring *r = &plan->rings[ring];
	const struct plan_node *before = &r->nodes[(at + r->count - 1) % r->count];
	double degrees = edging_turn_rad(r, at, ring > 0) * 180 / M_PI;

	return plan->edging[r->nodes[at].kind].corner_um > 0 && edging_meets_own(r, at) &&
	       !before->rise_um && !r->nodes[at].rise_um && fabs(degrees - 90) <= RIGHT_WITHIN;
}

/* What the corner before node `at`'s edge adds to the run that comes in, or leaves. */
static int64_t corner_um(const struct plan *plan, size_t ring, size_t at, bool comes_in)
{
	const struct plan_ring *r = &plan->rings[ring];
	const struct plan_edging *e = &plan->edging[r->nodes[at].kind];
	double turn = edging_turn_rad(r, at, ring > 0);
	int64_t mitre = edging_mitre_um(r, at, ring > 0, e->depth_um);

	if (!edging_meets_own(r, at))
		return 0;
	if (edging_takes_corner(plan, ring, at))
		return e->depth_um - e->corner_um - e->joint_um;
	if (e->mitred || turn < GENTLEST_BUTT * M_PI / 180)
		return mitre;
	if (!comes_in)
		return 0;
	turn = fmin(turn, SHARPEST_TURN * M_PI / 180);
	return llround(fmax((double)mitre, (double)e->depth_um / sin(turn)));
}

int64_t edging_run_um(const struct plan *plan, size_t ring, size_t at)
{
	const struct plan_ring *r = &plan->rings[ring];

	return llround(edge_length_um(r, at)) + corner_um(plan, ring, at, false) +
	       corner_um(plan, ring, (at + 1) % r->count, true);
}

struct edging_split edging_split(
        int64_t run_um, int64_t unit_um, int64_t joint_um, int64_t least_um)
{
	struct edging_split s = { 0 };
	int64_t rest;

	if (run_um <= 0)
		return s;
	s.whole = (run_um + joint_um + 1) / (unit_um + joint_um);
	rest = run_um - s.whole * (unit_um + joint_um);
	if (rest <= joint_um + 1)
		return s;
	if (rest < least_um && s.whole && unit_um + rest >= 2 * least_um) {
		s.whole--;
		s.shared = true;
		s.piece_um[s.cut++] = unit_um + rest - least_um;
		rest = least_um;
	}
	s.piece_um[s.cut++] = rest;
	return s;
}
