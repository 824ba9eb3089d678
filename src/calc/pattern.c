/* pattern.c - the repeats of the bonds, and where a slab of one lies.
 *
 * Herringbone, w the coordinating width: a lying slab at (0, 0) and a standing one at (0, w), both
 * repeated by (4w, 0) and (w, w). Basket weave of n, S = n w: n lying slabs in the cell at (0, 0)
 * and n standing ones in the cell at (S, 0), repeated by (2S, 0) and (S, S). Both cover the plane
 * once: the repeat's area is the sum of its slabs'. */
#include "slabwright/pattern.h"

#include <math.h>

static const int64_t PLAY_UM = 5000; /* how far a slab's length may miss a multiple of its width */

/* The number of a size in the pattern, which gets it when it has not got it yet. */
static int size_number(struct pattern *p, int64_t length, int64_t width)
{
	for (int i = 0; i < p->size_count; i++)
		if (p->sizes[i].length_um == length && p->sizes[i].width_um == width)
			return i;
	p->sizes[p->size_count] = (struct slab_kind){ length, width, 0 };
	return p->size_count++;
}

static void add_part(
        struct pattern *p, int64_t x, int64_t y, const struct slab_size *s, bool standing)
{
	p->parts[p->count++] = (struct pattern_part){
		.x_um = x,
		.y_um = y,
		.length_um = standing ? s->width_um : s->length_um,
		.width_um = standing ? s->length_um : s->width_um,
		.standing = standing,
		.size = size_number(p, s->length_um, s->width_um),
	};
}

static enum status make_courses(
        const struct plan_laying *l, const struct slab_size *s, struct pattern *p)
{
	p->by_fraction = true;
	p->offset = l->bond == BOND_STRETCHER ? l->offset : 0;
	p->along_y = l->along == ALONG_Y;
	p->step_x_um = p->along_y ? s->pitch_y_um : s->pitch_x_um;
	p->step_y_um = p->along_y ? s->pitch_x_um : s->pitch_y_um;
	add_part(p, 0, 0, s, false);
	return STATUS_OK;
}

/* The coordinating width that makes `times` of it the slab's length; 0 where they miss by more than
 * the play. */
static int64_t module(const struct slab_size *s, int64_t times)
{
	int64_t by_length = (s->pitch_x_um + times - 1) / times;
	int64_t miss = s->pitch_x_um - times * s->pitch_y_um;

	if (miss > PLAY_UM || miss < -PLAY_UM)
		return 0;
	return by_length > s->pitch_y_um ? by_length : s->pitch_y_um;
}

static enum status refuse(
        const struct slab_size *s, const char *bond, const char *wants, struct error *err)
{
	char length[40], width[40];

	return error_set(err, STATUS_PLAN,
	        "%s wants a slab %s as long as wide, joints included; this one is %s x %s mm. "
	        "Choose another slab, or "
	        "stack or stretcher bond.",
	        bond, wants, mm_print(length, sizeof length, s->pitch_x_um),
	        mm_print(width, sizeof width, s->pitch_y_um));
}

static enum status make_herringbone(const struct slab_size *s, struct pattern *p, struct error *err)
{
	int64_t w = module(s, 2);

	if (!w)
		return refuse(s, "herringbone", "twice", err);
	p->step_x_um = 4 * w;
	p->step_y_um = p->slant_um = w;
	add_part(p, 0, 0, s, false);
	add_part(p, 0, w, s, true);
	return STATUS_OK;
}

static enum status make_basketweave(const struct slab_size *s, struct pattern *p, struct error *err)
{
	int64_t n = (s->pitch_x_um + s->pitch_y_um / 2) / s->pitch_y_um,
	        w = n == 2 || n == 3 ? module(s, n) : 0;

	if (!w)
		return refuse(s, "basket weave", "twice or three times", err);
	p->step_x_um = 2 * n * w;
	p->step_y_um = p->slant_um = n * w;
	for (int64_t i = 0; i < n; i++)
		add_part(p, 0, i * w, s, false);
	for (int64_t i = 0; i < n; i++)
		add_part(p, n * w + i * w, 0, s, true);
	return STATUS_OK;
}

/* A slab of a repeat or a mix, with its joint taken off; the longer side is its length. */
static bool without_joint(int64_t length, int64_t width, int64_t joint, struct slab_size *out)
{
	*out = (struct slab_size){ length > width ? length : width, length > width ? width : length,
		0, 0 };
	out->length_um -= joint;
	out->width_um -= joint;
	return out->width_um >= 10 * UM_PER_MM;
}

static enum status refuse_joint(struct error *err)
{
	return error_set(err, STATUS_PLAN,
	        "the joint leaves less than 10 mm of a slab of this bond; give a narrower joint");
}

static enum status make_mixed(const struct plan_laying *l, struct pattern *p, struct error *err)
{
	const struct plan_repeat *r = &l->repeat;
	enum status st = repeat_check(r, "", err);

	if (st != STATUS_OK)
		return st;
	p->step_x_um = r->step_x_um;
	p->step_y_um = r->step_y_um;
	p->slant_um = r->slant_um;
	for (size_t i = 0; i < r->count; i++) {
		const struct repeat_slab *b = &r->slabs[i];
		struct slab_size s;

		if (!without_joint(b->length_um, b->width_um, p->joint_um, &s))
			return refuse_joint(err);
		add_part(p, b->x_um, b->y_um, &s, b->width_um > b->length_um);
	}
	return STATUS_OK;
}

/* Of each size as many as its share of the mix: per square metre, share over the area of the whole
 * mix. */
static enum status make_random(const struct plan_laying *l, struct pattern *p, struct error *err)
{
	const struct plan_mix *m = &l->mix;
	enum status st = mix_check(m, "", err);
	double area = 0;

	if (st != STATUS_OK)
		return st;
	for (size_t i = 0; i < m->count; i++)
		area += (double)m->sizes[i].share * (double)m->sizes[i].length_um *
		        (double)m->sizes[i].width_um * 1e-12;
	for (size_t i = 0; i < m->count; i++) {
		struct slab_size s;

		if (!without_joint(m->sizes[i].length_um, m->sizes[i].width_um, p->joint_um, &s))
			return refuse_joint(err);
		p->parts[i] =
		        (struct pattern_part){ .length_um = m->sizes[i].length_um - p->joint_um,
			        .width_um = m->sizes[i].width_um - p->joint_um,
			        .standing = m->sizes[i].width_um > m->sizes[i].length_um,
			        .size = size_number(p, s.length_um, s.width_um) };
		p->sizes[p->parts[i].size].per_m2 += (double)m->sizes[i].share / area;
	}
	return STATUS_OK;
}

/* How many slabs of each size a square metre takes: those of the repeat over its area. */
static void count_per_m2(struct pattern *p)
{
	double area = (double)p->step_x_um * (double)p->step_y_um * 1e-12;

	for (int i = 0; i < p->count; i++)
		p->sizes[p->parts[i].size].per_m2 += 1 / area;
}

static enum status make(const struct plan_laying *laying, struct pattern *out, struct error *err)
{
	struct slab_size s = slab_size(&laying->slab);

	switch (laying->bond) {
	case BOND_STACK:
	case BOND_STRETCHER:
		return make_courses(laying, &s, out);
	case BOND_HERRINGBONE:
		return make_herringbone(&s, out, err);
	case BOND_BASKETWEAVE:
		return make_basketweave(&s, out, err);
	case BOND_MIXED:
		return make_mixed(laying, out, err);
	default:
		return make_random(laying, out, err);
	}
}

enum status pattern_make(const struct plan_laying *laying, struct pattern *out, struct error *err)
{
	enum status st;

	*out = (struct pattern){ .joint_um = laying->slab.joint_um };
	st = make(laying, out, err);
	if (st == STATUS_OK)
		count_per_m2(out);
	return st;
}

double pattern_shift(const struct pattern *p, int64_t course)
{
	double t = (double)course * p->offset;

	return p->by_fraction ? (t - floor(t)) * (double)p->step_x_um
	                      : (double)(course * p->slant_um);
}

static struct point changed_over(const struct pattern *p, struct point at)
{
	return p->along_y ? (struct point){ at.y, at.x } : at;
}

struct point pattern_corner(const struct pattern *p, struct slab_spot spot)
{
	const struct pattern_part *part = &p->parts[spot.part];
	struct point c = { (double)(part->x_um + spot.index * p->step_x_um) +
		                   pattern_shift(p, spot.course),
		(double)(part->y_um + spot.course * p->step_y_um) };

	return changed_over(p, c);
}

struct point pattern_size(const struct pattern *p, int part)
{
	return (struct point){ (double)p->parts[part].length_um, (double)p->parts[part].width_um };
}

/* Tries the courses of one part whose cells reach up to the point. */
static bool part_at(
        const struct pattern *p, int number, struct point at, struct slab_spot *spot, bool *on_slab)
{
	const struct pattern_part *part = &p->parts[number];
	struct point size = changed_over(p, pattern_size(p, number));
	double step_x = (double)p->step_x_um, step_y = (double)p->step_y_um,
	       joint = (double)p->joint_um;
	int64_t top = (int64_t)floor((at.y - (double)part->y_um) / step_y);

	for (int64_t k = top; (double)(top - k) * step_y < size.y + joint; k--) {
		double dy = at.y - (double)(part->y_um + k * p->step_y_um);
		double dx = at.x - (double)part->x_um - pattern_shift(p, k), i = floor(dx / step_x);

		dx -= i * step_x;
		if (dy >= size.y + joint || dx >= size.x + joint)
			continue;
		*spot = (struct slab_spot){ number, k, (int64_t)i };
		*on_slab = dx <= size.x && dy <= size.y;
		return true;
	}
	return false;
}

bool pattern_at(const struct pattern *p, struct point at, struct slab_spot *spot)
{
	struct point q = changed_over(p, at);
	bool on_slab = false;

	for (int i = 0; i < p->count; i++)
		if (part_at(p, i, q, spot, &on_slab))
			break;
	return on_slab;
}
