/* course.c - a border course laid straight.
 *
 * The strip along an edge is laid as one course of a pattern whose slabs lie across the run or
 * along it. A curve is laid on the straightened strip, measured along its narrow side, where the
 * slabs keep their joint; at the wide end the joints open. Where they would open beyond what the
 * border allows, the run is measured along its wide side instead and every slab is cut to a wedge
 * that keeps the joint at both ends. */
#include "course.h"

#include "piece.h"

#include <math.h>

/* Where slabs begin, u of the frame: slab 0 at this place, the others by the pitch. */
static double first_slab(
        const struct plan_border *b, const struct border_size *size, const struct box *run)
{
	double pitch = (double)size->pitch_along_um, slab = (double)size->along_um;
	double middle = (run->x0 + run->x1) / 2, best = 0, longest = -1;
	double starts[] = { middle + (pitch - slab) / 2, middle - slab / 2 };

	if (b->begin == BEGIN_CORNER)
		return run->x0;
	for (int i = 0; i < 2; i++) {
		double whole = floor((starts[i] - run->x0) / pitch), end;

		end = starts[i] - whole * pitch - run->x0; /* cell and joint before the first */
		end = end <= pitch - slab ? slab : end - (pitch - slab);
		if (end > longest + 0.5) {
			longest = end;
			best = starts[i];
		}
	}
	return best;
}

/* The same place of the course before, shifted; `from` in that course's frame. */
static double after_course(const struct plan_border *b, const struct border_size *size,
        const struct section *before, const struct section *section)
{
	double from = (double)before->laid.pattern.parts[0].x_um +
	              b->offset * (double)size->pitch_along_um;
	struct point there = plan_from_section(before, (struct point){ from, 0 });

	return section_from_plan(section, there).x;
}

static void make_pattern(const struct plan_border *b, const struct border_size *size, double first,
        struct pattern *out)
{
	struct slab_size slab = slab_size(&b->slab);
	double cell = (double)size->pitch_along_um * (double)size->pitch_across_um * 1e-12;

	*out = (struct pattern){
		.parts[0] = { .x_um = llround(first),
		        .length_um = size->along_um,
		        .width_um = size->across_um,
		        .standing = b->lay == BORDER_SOLDIER },
		.count = 1,
		.sizes[0] = { slab.length_um, slab.width_um, 1 / cell },
		.size_count = 1,
		.step_x_um = size->pitch_along_um,
		.step_y_um = size->pitch_across_um,
		.joint_um = b->slab.joint_um,
		.by_fraction = true,
	};
}

/* A curve's chords are not quite square to its radii, so its inner line ends a little off where the
 * curve does; an end that is square but for that is made so. */
static void square_ends(const struct strip *t, struct ring *r)
{
	struct box b = points_box(r->p, r->n);
	double depth = b.y1 - b.y0, chords = (double)(t->ring.n > 4 ? t->ring.n / 2 - 1 : 1);
	double play = (b.x1 - b.x0) / t->radius_um / chords * depth + 1;
	double begin = b.x1, end = b.x0;

	for (size_t i = 0; i < r->n; i++)
		if (r->p[i].y == 0) {
			begin = fmin(begin, r->p[i].x);
			end = fmax(end, r->p[i].x);
		}
	for (size_t i = 0; i < r->n; i++) {
		if (fabs(r->p[i].x - begin) < play)
			r->p[i].x = begin;
		if (fabs(r->p[i].x - end) < play)
			r->p[i].x = end;
	}
}

static enum status frame_of(
        struct arena *mem, struct section *s, struct region *out, struct error *err)
{
	const struct ring *from = &s->strip->straight;
	struct ring *ring = arena_alloc(mem, 1, sizeof *ring);

	if (!ring)
		return error_memory(err);
	*ring = (struct ring){ .p = arena_alloc(mem, from->n, sizeof *ring->p), .n = from->n };
	if (!ring->p)
		return error_memory(err);
	for (size_t i = 0; i < from->n; i++)
		ring->p[i] = from->p[i];
	if (s->curved)
		square_ends(s->strip, ring);
	for (size_t i = 0; i < from->n; i++)
		ring->p[i].x *= s->stretch;
	*out = (struct region){ ring, 1 };
	return STATUS_OK;
}

/* The radius at v over the radius along which slabs are measured when they are cut to wedges. */
static double radius_over_wide(const struct strip *t, double v)
{
	double depth = fabs(t->outer_um - t->inner_um);
	double wide = fmax(t->outer_um, t->inner_um);

	return (t->outer_um + (t->inner_um - t->outer_um) * v / depth) / wide;
}

/* A piece of a straight slab cut to the wedge: narrowed toward the slab's middle by what the radius
 * is less at that depth. Its sides are cut, so they need no finished edge. */
static enum status taper(const struct section *s, const struct border_size *size,
        struct piece *piece, struct error *err)
{
	double pitch = (double)size->pitch_along_um, slab = (double)size->along_um;

	for (size_t r = 0; r < piece->shape.count; r++)
		for (size_t i = 0; i < piece->shape.rings[r].n; i++) {
			struct point *p = &piece->shape.rings[r].p[i];
			double width = pitch * radius_over_wide(s->strip, p->y) - (pitch - slab);

			if (width < slab / 4)
				return error_set(err, STATUS_PLAN,
				        "%s: the curve is too tight for these slabs; they would be "
				        "cut to points. Take narrower slabs, or no border there.",
				        s->name);
			p->x = slab / 2 + (p->x - slab / 2) * width / slab;
		}
	piece->area_um2 = region_area_um2(&piece->shape);
	piece->box = points_box(piece->shape.rings[0].p, piece->shape.rings[0].n);
	piece->sides &= (unsigned)(SIDE_BOTTOM | SIDE_TOP);
	if (piece->kind == PIECE_WHOLE)
		piece->kind = PIECE_CUT;
	return STATUS_OK;
}

static enum status lay_wedges(
        struct arena *mem, const struct border_size *size, struct section *s, struct error *err)
{
	struct laying *laid = &s->laid;
	const struct pattern_part *part = &laid->pattern.parts[0];
	struct piece_list list = { .mem = mem };
	struct box box = region_box(&s->frame_region);
	struct point corner = { 0, 0 };
	struct piece_rule rule = piece_rule_of(&s->laying, part,
	        (struct point){ (double)size->along_um, (double)size->across_um });
	int64_t first =
	        (int64_t)floor((box.x0 - (double)part->x_um) / (double)size->pitch_along_um);
	enum status st = STATUS_OK;

	for (int64_t i = first; st == STATUS_OK; i++) {
		struct region band, clipped;

		corner.x = (double)(part->x_um + i * size->pitch_along_um);
		if (corner.x >= box.x1)
			break;
		st = region_band(mem, &s->frame_region, AXIS_X, corner.x,
		        corner.x + (double)size->along_um, &band, err);
		if (st == STATUS_OK)
			st = region_band(
			        mem, &band, AXIS_Y, 0, (double)size->across_um, &clipped, err);
		if (st == STATUS_OK)
			st = pieces_from(
			        &list, &rule, &clipped, corner, (struct slab_spot){ 0, 0, i }, err);
	}
	for (size_t i = 0; i < list.count && st == STATUS_OK; i++)
		st = taper(s, size, &list.items[i], err);
	laid->pieces = list.items;
	laid->piece_count = list.count;
	count_kinds(laid);
	return st;
}

/* How far the joint opens at the wide end of a slab that keeps its joint at the narrow one. */
static double wide_joint(const struct strip *t, const struct border_size *size)
{
	double wide = fmax(t->outer_um, t->inner_um), narrow = fmin(t->outer_um, t->inner_um);

	return (double)size->pitch_along_um * wide / narrow - (double)size->along_um;
}

enum status course_lay(struct arena *mem, const struct plan *plan, const struct plan_border *border,
        const struct section *before, struct section *section, struct error *err)
{
	struct border_size size = border_size(border);
	const struct strip *t = section->strip;
	struct pattern pattern;
	struct box run;
	double first;
	enum status st;

	section->laying = plan->laying;
	section->laying.slab = border->slab;
	section->laying.sliver_width_um = SLIVER_WIDTH_DEFAULT;
	section->curved = t->curved;
	section->stretch = 1;
	if (t->curved) {
		section->wide_joint_um = wide_joint(t, &size);
		section->wedges = section->wide_joint_um > (double)border->widest_joint_um;
	}
	if (section->wedges)
		section->stretch = fmax(t->outer_um, t->inner_um) / t->radius_um;
	if ((st = frame_of(mem, section, &section->frame_region, err)) != STATUS_OK)
		return st;
	run = region_box(&section->frame_region);
	first = before && before->wedges == section->wedges
	                ? after_course(border, &size, before, section)
	                : first_slab(border, &size, &run);
	make_pattern(border, &size, first, &pattern);
	if (!section->wedges)
		return lay_pattern(mem, &section->frame_region, &pattern, &section->laying,
		        &section->laid, err);
	section->laid = (struct laying){ .slab = slab_size(&border->slab), .pattern = pattern };
	return lay_wedges(mem, &size, section, err);
}
