/* elevation.c - a leg of a wall drawn in characters, as it is seen from outside. */
#include "planters.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

enum { COLUMNS = 68 };

/* The leg's outer leaf to scale. */
struct scale {
	const struct planter_result *r;
	size_t leg;
	double from_um, step_um; /* of a column */
	int columns;
};

/* Wide enough for the other legs' blocks at both ends. */
static struct scale scale_of(const struct planter_result *r, size_t leg)
{
	const struct planter_leg *l = &r->legs[leg];
	double wide = (double)(r->leaves[0].v1_um - r->leaves[0].v0_um),
	       from = fmin(0, wide * r->corners[l->from].half_tan),
	       to = (double)l->length_um - fmin(0, wide * r->corners[l->to].half_tan);
	double pitch = (double)(r->planter->block.length_um + r->planter->block.joint_um);
	struct scale s = { r, leg, from, fmax((to - from) / COLUMNS, pitch / 16), 0 };

	s.columns = (int)ceil((to - from) / s.step_um - 1e-6);
	return s;
}

static int column_of(const struct scale *s, double u_um)
{
	int c = (int)lround((u_um - s->from_um) / s->step_um);

	return c < 0 ? 0 : c > s->columns ? s->columns : c;
}

static void draw_units(const struct scale *s, const struct planter_course *c, char *line)
{
	static const char fills[] = { '_', '=', ':' };

	memset(line, '#', (size_t)s->columns + 1);
	for (size_t i = 0; i < c->unit_count; i++) {
		const struct planter_unit *u = &c->units[i];
		int from = column_of(s, fmin(u->from_out_um, u->from_in_um)),
		    to = column_of(s, fmax(u->to_out_um, u->to_in_um));

		if (u->leg == s->leg && u->leaf == 0)
			memset(line + from, fills[u->piece], (size_t)(to - from) + 1);
	}
	line[0] = line[s->columns] = '|';
	for (size_t i = 0; i < c->joint_count; i++)
		if (c->joints[i].leg == s->leg && c->joints[i].leaf == 0)
			line[column_of(s, c->joints[i].u_um)] = '|';
	for (size_t i = 0; i < c->tie_count; i++)
		if (c->ties[i].leg == s->leg)
			line[column_of(s, c->ties[i].u_um)] = '+';
}

void text_elevation(FILE *to, const struct planter_result *r, size_t leg)
{
	struct scale s = scale_of(r, leg);
	double pitch = (double)(r->planter->block.length_um + r->planter->block.joint_um);
	char line[COLUMNS + 2];

	if (pitch / s.step_um < 3) {
		fputs("    too long to be drawn block by block; the units are listed below\n", to);
		return;
	}
	for (int64_t k = r->planter->courses; k >= 1; k--) {
		draw_units(&s, planter_course(r, k), line);
		fprintf(to, "  %3" PRId64 " %.*s\n", k, s.columns + 1, line);
	}
}
