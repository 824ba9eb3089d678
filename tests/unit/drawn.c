/* drawn.c - see drawn.h. */
#include "drawn.h"

#include "drawn_beside.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct drawing_options drawn_options(void)
{
	return (struct drawing_options){
		.client = "Test client", .job = "Yard", .date = "2024-05-31", .paper = PAPER_A4
	};
}

static void scale_ring(struct plan_ring *r, double by)
{
	for (size_t i = 0; i < r->count; i++) {
		r->nodes[i].x_um = llround((double)r->nodes[i].x_um * by);
		r->nodes[i].y_um = llround((double)r->nodes[i].y_um * by);
		r->nodes[i].rise_um = llround((double)r->nodes[i].rise_um * by);
	}
}

static void add_surface(struct arena *mem, struct chance *c, struct plan *p)
{
	p->surface.count = (size_t)chance_int(c, 1, 3);
	p->surface.planes = arena_alloc(mem, p->surface.count, sizeof *p->surface.planes);
	p->surface.envelope = chance_int(c, 0, 1) ? ENVELOPE_MAX : ENVELOPE_MIN;
	for (size_t i = 0; i < p->surface.count; i++)
		p->surface.planes[i] = (struct plan_plane){
			.x_um = p->rings[0].nodes[0].x_um,
			.y_um = p->rings[0].nodes[0].y_um,
			.level_um = chance_int(c, -200, -180) * 1000,
			.toward_udeg = chance_int(c, -180, 180) * UDEG_PER_DEG,
			.fall_um_per_m = chance_int(c, 5, 30) * 1000,
		};
	p->ground.has_instrument = chance_int(c, 0, 2) > 0;
	p->ground.backsight_um = 1345000;
	p->surface.has_fixed = chance_int(c, 0, 1) > 0;
	p->surface.fixed_name = "door sill of the garden room";
	p->surface.fixed_x_um = p->rings[0].nodes[0].x_um;
	p->surface.fixed_y_um = p->rings[0].nodes[0].y_um + 100000;
	p->surface.fixed_level_um = -20000;
}

static struct plan any_plan(struct arena *mem, struct chance *c, int number)
{
	static const double sizes[] = { 1, 1, 0.3, 2.5, 1, 6 };
	static struct rules none = { .name = "none" };
	static char long_name[151];
	double size = sizes[number % 6];

	memset(long_name, 'Q', sizeof long_name - 1);
	for (;;) {
		struct plan p = random_plan(mem, c, (enum outline_style)(number % STYLES));
		struct takeoff t;

		p.name = "any";
		for (size_t i = 0; i < p.ring_count; i++)
			scale_ring(&p.rings[i], size);
		random_bond(c, &p.laying, number % BOND_CHOICES);
		if (number % 3 == 1)
			random_add_borders(mem, c, &p);
		for (int z = number % 3; z > 0 && size >= 1; z--)
			random_add_zone(mem, c, &p);
		if (number % 5)
			add_surface(mem, c, &p);
		if (number % 4 == 1) {
			p.laying.slab.name = p.surface.fixed_name = long_name;
			for (size_t i = 0; i < p.zone_count; i++)
				p.zones[i].name = long_name;
		}
		for (int k = EDGE_KERB; k <= EDGE_PLANTER; k++)
			p.edging[k] = (struct plan_edging){ .name = "unit for a straight edge",
				.unit_um = 915000,
				.joint_um = 3000 };
		add_beside(mem, c, &p, number);
		if (outline_check(&p, NULL) == STATUS_OK &&
		        takeoff_plan(mem, &p, &none, &t, NULL) == STATUS_OK && t.ready)
			return p;
	}
}

/* Kerbs point into the take-off's own plan: the first one stays in mem. */
struct takeoff drawn_job(struct arena *mem, struct chance *c, int number)
{
	static const struct rules none = { .name = "none" };
	const struct rules *rules = number % 3 ? &drawn_limits : &none;
	struct plan *p = arena_alloc(mem, 1, sizeof *p);
	struct takeoff *t = arena_alloc(mem, 1, sizeof *t);

	ck_assert(p && t);
	*p = any_plan(mem, c, number);
	ck_assert_int_eq(takeoff_plan(mem, p, rules, t, NULL), STATUS_OK);
	return *t;
}

void drawn_write(const char *path, const struct takeoff *t, const struct drawing_options *o)
{
	size_t pages;
	struct error err = { 0 };

	ck_assert_msg(drawing_write(path, t, o, &pages, &err) == STATUS_OK, "%s", err.text);
	ck_assert_uint_ge(pages, 1);
}

char *drawn_read(const char *path, size_t *length)
{
	FILE *from = fopen(path, "rb");
	char *text = NULL;
	size_t room;
	FILE *to = open_memstream(&text, &room);

	ck_assert_msg(from != NULL, "%s", path);
	for (int c; (c = fgetc(from)) != EOF;)
		fputc(c, to);
	fclose(from);
	fclose(to);
	*length = room;
	return text;
}

char *drawn_said_by(const char *program, const char *path)
{
	char command[600];
	char *text = NULL;
	size_t size;
	FILE *from, *to = open_memstream(&text, &size);

	snprintf(command, sizeof command, program, path);
	from = popen(command, "r");
	ck_assert_ptr_nonnull(from);
	for (int c; (c = fgetc(from)) != EOF;)
		fputc(c, to);
	ck_assert_int_eq(pclose(from), 0);
	fclose(to);
	return text;
}

bool svg_has_level_line(const char *svg, double dx)
{
	double x0, y0, x1, y1;

	for (const char *at = strstr(svg, "\"M "); at; at = strstr(at + 1, "\"M "))
		if (sscanf(at, "\"M %lf %lf L %lf %lf", &x0, &y0, &x1, &y1) == 4 &&
		        fabs(fabs(x1 - x0) - dx) < 0.005 && fabs(y1 - y0) < 0.005)
			return true;
	return false;
}
