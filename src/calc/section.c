/* section.c - a plan's paving cut into its sections: gaps first, then border courses, then zones.
 */
#include "cutting.h"

#include "course.h"

#include <math.h>

static const double LEAST_ZONE_UM2 = 1e6; /* less of a zone in the paving is none */
enum { ZONE_EDGES = -2 }; /* edges of zone z are labelled ZONE_EDGES - z */

static struct section *add_section(struct cutting *c, enum section_kind kind, size_t number)
{
	struct section *grown = arena_grow(
	        c->mem, c->out->sections, c->out->section_count, &c->capacity, sizeof *grown);

	if (!grown)
		return NULL;
	c->out->sections = grown;
	grown[c->out->section_count] =
	        (struct section){ .kind = kind, .number = number, .paved = true };
	return &grown[c->out->section_count++];
}

/* --- gaps --- */

/* The region less the gaps that the laying leaves open along edges of some kinds. */
static enum status leave_gaps(struct cutting *c)
{
	const struct plan *p = c->plan;
	double *inward = arena_alloc(c->mem, plan_edge_count(p), sizeof *inward), widest = 0;
	struct region whole = c->left;

	if (!inward)
		return error_memory(c->err);
	for (size_t i = 0, e = 0; i < p->ring_count; i++)
		for (size_t j = 0; j < p->rings[i].count; j++, e++) {
			inward[e] = (double)p->laying.edge_joint_um[p->rings[i].nodes[j].kind];
			widest = fmax(widest, inward[e]);
		}
	return widest > 0 ? region_inset(c->mem, p, &whole, inward, &c->left, c->err) : STATUS_OK;
}

/* --- borders --- */

/* The plan with its borders one course deep: all of them, or only those that have a second. */
static enum status one_course(const struct cutting *c, int course, struct plan *out, size_t *edges)
{
	const struct plan *p = c->plan;

	*out = *p;
	*edges = 0;
	out->rings = arena_alloc(c->mem, p->ring_count, sizeof *out->rings);
	out->borders = arena_alloc(c->mem, p->border_count, sizeof *out->borders);
	if (!out->rings || !out->borders)
		return error_memory(c->err);
	for (size_t i = 0; i < p->border_count; i++) {
		out->borders[i] = p->borders[i];
		out->borders[i].deep = 1;
	}
	for (size_t i = 0; i < p->ring_count; i++) {
		struct plan_ring *r = &out->rings[i];

		*r = p->rings[i];
		r->nodes = arena_alloc(c->mem, r->count, sizeof *r->nodes);
		if (!r->nodes)
			return error_memory(c->err);
		for (size_t j = 0; j < r->count; j++) {
			struct plan_node *n = &r->nodes[j];

			*n = p->rings[i].nodes[j];
			if (n->border && p->borders[n->border - 1].deep <= course)
				n->border = 0;
			*edges += n->border != 0;
		}
	}
	return STATUS_OK;
}

/* The first course along the same edge; NULL for that one itself. */
static const struct section *course_before(const struct paving *p, size_t edge, int course)
{
	for (size_t i = 0; i < p->section_count; i++)
		if (p->sections[i].kind == SECTION_BORDER && p->sections[i].edge == edge &&
		        p->sections[i].course == course - 1)
			return &p->sections[i];
	return NULL;
}

static enum status add_course(struct cutting *c, const struct strip *strip, int course)
{
	size_t ring = 0, at = 0, number;
	const struct plan_border *border;
	struct section *s;
	char edge[64];

	plan_edge_find(c->plan, strip->edge, &ring, &at);
	edge_words(edge, sizeof edge, ring, at);
	number = (size_t)c->plan->rings[ring].nodes[at].border - 1;
	border = &c->plan->borders[number];
	s = add_section(c, SECTION_BORDER, number);
	if (!s)
		return error_memory(c->err);
	s->edge = strip->edge;
	s->course = course;
	s->strip = strip;
	s->name = border->deep == 1
	                  ? arena_print(c->mem, "border along %s", edge)
	                  : arena_print(c->mem, "border along %s, course %d", edge, course + 1);
	s->region.rings = arena_alloc(c->mem, 1, sizeof *s->region.rings);
	if (!s->name || !s->region.rings)
		return error_memory(c->err);
	s->region.rings[0] = strip->ring;
	s->region.count = 1;
	return course_lay(
	        c->mem, c->plan, border, course_before(c->out, s->edge, course), s, c->err);
}

static enum status lay_borders(struct cutting *c, int course)
{
	struct plan plan;
	struct strip *strips;
	struct region field;
	size_t edges, count = 0;
	enum status st = one_course(c, course, &plan, &edges);

	if (st != STATUS_OK || !edges)
		return st;
	st = region_borders(c->mem, &plan, &c->left, &strips, &count, &field, c->err);
	if (st != STATUS_OK)
		return st;
	c->left = field;
	for (size_t i = 0; i < count && st == STATUS_OK; i++)
		st = add_course(c, &strips[i], course);
	return st;
}

/* --- zones --- */

static const char *zone_words(struct arena *mem, const struct plan *plan, size_t zone)
{
	const char *name = plan->zones[zone].name;

	return *name ? arena_print(mem, "zone %zu, %s", zone + 1, name)
	             : arena_print(mem, "zone %zu", zone + 1);
}

/* Refuses a zone that lies over one that was cut out before. */
static enum status meet_no_other(
        struct cutting *c, const struct section *zone, const struct ring *ring)
{
	for (size_t i = 0; i < c->out->section_count; i++) {
		const struct section *other = &c->out->sections[i];
		struct region common, rest;
		enum status st;

		if (other->kind != SECTION_ZONE || other == zone)
			continue;
		st = region_split(c->mem, &other->region, ring, 0, &common, &rest, c->err);
		if (st != STATUS_OK)
			return st;
		if (region_area_um2(&common) > LEAST_ZONE_UM2)
			return error_set(c->err, STATUS_PLAN,
			        "%s overlaps %s by %.3f m2; move the corners of one of them",
			        zone->name, other->name, region_area_um2(&common) * 1e-12);
	}
	return STATUS_OK;
}

/* The length of the edges that carry the label, m. */
static double labelled_m(const struct region *r, int label)
{
	double sum = 0;

	for (size_t i = 0; i < r->count; i++)
		for (size_t j = 0; j < r->rings[i].n; j++) {
			const struct ring *g = &r->rings[i];
			struct point a = g->p[j], b = g->p[j + 1 < g->n ? j + 1 : 0];

			sum += g->edge && g->edge[j] == label ? hypot(b.x - a.x, b.y - a.y) : 0;
		}
	return sum * 1e-6;
}

/* Slab, bond and start are the zone's; what the crew does with them is the variant's. */
static struct plan_laying laying_of_zone(const struct plan *plan, const struct plan_zone *zone)
{
	struct plan_laying l = zone->laying;

	l.kerf_um = plan->laying.kerf_um;
	l.fill_width_um = plan->laying.fill_width_um;
	l.sliver_width_um = plan->laying.sliver_width_um;
	l.edges = plan->laying.edges;
	l.breakage_ppm = plan->laying.breakage_ppm;
	return l;
}

static enum status cut_zone(struct cutting *c, size_t number)
{
	const struct plan_zone *zone = &c->plan->zones[number];
	int label = ZONE_EDGES - (int)number;
	struct region all = c->left;
	struct ring ring;
	struct section *s;
	enum status st = ring_flatten(c->mem, &zone->ring, &ring, c->err);

	if (st != STATUS_OK)
		return st;
	if (!(s = add_section(c, SECTION_ZONE, number)) ||
	        !(s->name = zone_words(c->mem, c->plan, number)))
		return error_memory(c->err);
	s->paved = zone->paved;
	s->level_um = zone->level_um;
	s->laying = laying_of_zone(c->plan, zone);
	if ((st = meet_no_other(c, s, &ring)) != STATUS_OK ||
	        (st = region_split(c->mem, &all, &ring, label, &s->region, &c->left, c->err)) !=
	                STATUS_OK)
		return st;
	if (region_area_um2(&s->region) <= LEAST_ZONE_UM2)
		return error_set(c->err, STATUS_PLAN,
		        "%s has no part in the paving; move its corners onto it, or delete it",
		        s->name);
	s->shared_m = labelled_m(&s->region, label);
	return STATUS_OK;
}

enum status cut_sections(struct cutting *c)
{
	enum status st;

	if (!add_section(c, SECTION_FIELD, 0))
		return error_memory(c->err);
	c->out->sections[0].name = "field";
	c->out->sections[0].laying = c->plan->laying;
	if ((st = plan_borders_check(c->plan, c->err)) != STATUS_OK ||
	        (st = zone_rings_check(c->plan, c->err)) != STATUS_OK ||
	        (st = leave_gaps(c)) != STATUS_OK || (st = lay_borders(c, 0)) != STATUS_OK ||
	        (st = lay_borders(c, 1)) != STATUS_OK)
		return st;
	for (size_t i = 0; i < c->plan->zone_count && st == STATUS_OK; i++)
		st = cut_zone(c, i);
	c->out->sections[0].region = c->left;
	return st;
}
