/* ring.c - lengths and areas of a plan's rings by closed formulas.
 *
 * Cross products of corners are summed exactly in 128 bits, taken from the first corner, so a small
 * patio far from the origin is as exact as one at it. */
#include "slabwright/geom.h"

#include <math.h>
#include <stdio.h>

__extension__ typedef __int128 wide;

static const struct plan_node *node_after(const struct plan_ring *ring, size_t at)
{
	return &ring->nodes[at + 1 < ring->count ? at + 1 : 0];
}

static double chord_um(const struct plan_ring *ring, size_t at)
{
	const struct plan_node *a = &ring->nodes[at], *b = node_after(ring, at);

	return hypot((double)(b->x_um - a->x_um), (double)(b->y_um - a->y_um));
}

double edge_length_um(const struct plan_ring *ring, size_t at)
{
	double c = chord_um(ring, at), h = fabs((double)ring->nodes[at].rise_um);

	if (h == 0)
		return c;
	return (c * c / 4 + h * h) / (2 * h) * 4 * atan2(2 * h, c);
}

double ring_length_um(const struct plan_ring *ring)
{
	double sum = 0;

	for (size_t i = 0; i < ring->count; i++)
		sum += edge_length_um(ring, i);
	return sum;
}

/* Area between an arc and its chord, signed as its rise. */
static double segment_um2(const struct plan_ring *ring, size_t at)
{
	double c = chord_um(ring, at), h = (double)ring->nodes[at].rise_um, a = fabs(h), r, theta;

	if (h == 0)
		return 0;
	r = (c * c / 4 + a * a) / (2 * a);
	theta = 4 * atan2(2 * a, c);
	return copysign(r * r / 2 * (theta - sin(theta)), h);
}

double ring_signed_area2_um2(const struct plan_ring *ring)
{
	wide sum = 0;

	for (size_t i = 1; i + 1 < ring->count; i++) {
		const struct plan_node *o = &ring->nodes[0], *a = &ring->nodes[i],
		                       *b = &ring->nodes[i + 1];

		sum += (wide)(a->x_um - o->x_um) * (b->y_um - o->y_um) -
		       (wide)(b->x_um - o->x_um) * (a->y_um - o->y_um);
	}
	return (double)sum;
}

double ring_area_m2(const struct plan_ring *ring)
{
	double area = fabs(ring_signed_area2_um2(ring)) / 2;

	for (size_t i = 0; i < ring->count; i++)
		area += segment_um2(ring, i);
	return area * 1e-12;
}

double plan_area_m2(const struct plan *plan)
{
	double area = plan->ring_count ? ring_area_m2(&plan->rings[0]) : 0;

	for (size_t i = 1; i < plan->ring_count; i++)
		if (plan->rings[i].closed)
			area -= ring_area_m2(&plan->rings[i]);
	return area;
}

double plan_perimeter_m(const struct plan *plan)
{
	return plan->ring_count ? ring_length_um(&plan->rings[0]) * 1e-6 : 0;
}

double plan_opening_edges_m(const struct plan *plan)
{
	double sum = 0;

	for (size_t i = 1; i < plan->ring_count; i++)
		if (plan->rings[i].closed)
			sum += ring_length_um(&plan->rings[i]) * 1e-6;
	return sum;
}

size_t plan_edge_count(const struct plan *plan)
{
	return plan_edge_number(plan, plan->ring_count, 0);
}

size_t plan_edge_number(const struct plan *plan, size_t ring, size_t at)
{
	size_t number = at;

	for (size_t i = 0; i < ring; i++)
		number += plan->rings[i].count;
	return number;
}

bool plan_edge_find(const struct plan *plan, size_t number, size_t *ring, size_t *at)
{
	for (size_t i = 0; i < plan->ring_count; i++) {
		if (number < plan->rings[i].count) {
			*ring = i;
			*at = number;
			return true;
		}
		number -= plan->rings[i].count;
	}
	return false;
}

char *edge_words(char *buf, size_t size, size_t ring, size_t at)
{
	if (ring)
		snprintf(buf, size, "edge %zu of opening %zu", at + 1, ring);
	else
		snprintf(buf, size, "edge %zu", at + 1);
	return buf;
}

char *plan_edge_words(char *buf, size_t size, const struct plan *plan, size_t number)
{
	size_t ring = 0, at = 0;

	plan_edge_find(plan, number, &ring, &at);
	return edge_words(buf, size, ring, at);
}
