/* edging.c - what runs along the edges, kind by kind.
 *
 * An edge takes whole units and, at its end, one cut piece. The cut pieces of a kind come from
 * further units, the longest first, each from the first unit that still has room for it and the
 * blade. */
#include "slabwright/edging.h"

#include <math.h>
#include <stdlib.h>

static int longest_first(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return *x > *y ? -1 : *x < *y;
}

/* How many units the cut pieces come from. `left` has room for as many as there are pieces. */
static size_t first_fit(const double *pieces, size_t count, double unit, double kerf, double *left)
{
	size_t used = 0;

	for (size_t i = 0; i < count; i++) {
		size_t u = 0;

		while (u < used && left[u] < pieces[i] + kerf)
			u++;
		if (u == used)
			left[used++] = unit;
		left[u] -= left[u] == unit ? pieces[i] : pieces[i] + kerf;
	}
	return used;
}

static void lay_units(const struct plan_edging *e, double length, struct edging_line *line,
        double *pieces, size_t *count)
{
	double unit = (double)e->unit_um, joint = (double)e->joint_um;
	double whole = floor((length + joint + 1) / (unit + joint)),
	       rest = length - whole * (unit + joint);

	line->whole += (int64_t)whole;
	if (rest <= joint + 1)
		return;
	pieces[(*count)++] = fmin(rest, unit);
}

static enum status work_out_kind(struct arena *mem, const struct plan *plan, enum edge_kind kind,
        double kerf, struct edging_line *line, struct error *err)
{
	const struct plan_edging *e = &plan->edging[kind];
	double *pieces = arena_alloc(mem, plan_edge_count(plan), sizeof *pieces), sum = 0;
	double *left = arena_alloc(mem, plan_edge_count(plan), sizeof *left);
	size_t count = 0;

	if (!pieces || !left)
		return error_memory(err);
	*line = (struct edging_line){ .kind = kind, .unit_name = e->name, .unit_um = e->unit_um };
	for (size_t i = 0; i < plan->ring_count; i++) {
		const struct plan_ring *r = &plan->rings[i];

		for (size_t j = 0; r->closed && j < r->count; j++) {
			double length;

			if (r->nodes[j].kind != kind)
				continue;
			length = edge_length_um(r, j);
			line->edges++;
			line->length_m += length * 1e-6;
			if (e->unit_um)
				lay_units(e, length, line, pieces, &count);
		}
	}
	qsort(pieces, count, sizeof *pieces, longest_first);
	for (size_t i = 0; i < count; i++)
		sum += pieces[i];
	line->cut = (int64_t)count;
	line->units =
	        line->whole + (int64_t)first_fit(pieces, count, (double)e->unit_um, kerf, left);
	line->bound =
	        line->whole + (e->unit_um ? (int64_t)ceil(sum / (double)e->unit_um - 1e-9) : 0);
	return STATUS_OK;
}

enum status edging_work_out(struct arena *mem, const struct plan *plan, int64_t kerf_um,
        struct edging_result *out, struct error *err)
{
	out->count = 0;
	out->lines = arena_alloc(mem, EDGE_KINDS, sizeof *out->lines);
	if (!out->lines)
		return error_memory(err);
	for (int kind = 0; kind < EDGE_KINDS; kind++) {
		struct edging_line *line = &out->lines[out->count];
		enum status st =
		        work_out_kind(mem, plan, (enum edge_kind)kind, (double)kerf_um, line, err);

		if (st != STATUS_OK)
			return st;
		out->count += line->edges > 0;
	}
	return STATUS_OK;
}
