/* planter_bond.c - which blocks begin and end a leg's courses.
 *
 * A course of a leg is told by its first unit: whole blocks follow, and the last unit is what is
 * left. So its upright joints stand at one pitch from the first on, and laps of two courses are
 * told by arithmetic. The best pair of first units is looked up. */
#include "planter_bond.h"

enum { CANDIDATES = 24, FINE = 32 };

static const int64_t CUT = 3, CUT_CORNER = 3, HALF = 1;

struct cost cost_dearest(void)
{
	return (struct cost){ { INT64_MAX / 256 } };
}

bool cost_is_less(const struct cost *a, const struct cost *b)
{
	for (int i = 0; i < WANTS; i++)
		if (a->part[i] != b->part[i])
			return a->part[i] < b->part[i];
	return false;
}

struct cost cost_sum(const struct cost *a, const struct cost *b)
{
	struct cost s;

	for (int i = 0; i < WANTS; i++)
		s.part[i] = a->part[i] + b->part[i];
	return s;
}

/* One course of a leg in one leaf, before its first unit is chosen. Doubled lengths where a middle
 * of a joint is meant. */
struct course {
	int64_t from, to, length;
	int64_t least_first, least_last; /* units there should be no shorter */
	bool corner_first, corner_last; /* a corner's block lies there */
	int64_t joint2[2]; /* twice the middle of the joint beyond each end */
	bool has_joint[2];
};

int64_t bound_skew_um(const struct planter_bound *b)
{
	double skew = b->out_um - b->in_um;

	return (int64_t)(skew < 0 ? -skew : skew);
}

/* A unit on a corner reaches past the other leg's joint there by a lap. */
static int64_t least_of(const struct bonding *b, const struct planter_bound *at)
{
	return b->least + bound_skew_um(at) + (at->corner ? b->w->p->block.width_um : 0);
}

static struct course course_of(const struct bonding *b, size_t leg, int leaf, bool odd)
{
	const struct planter_leg *l = &b->w->r->legs[leg];
	struct planter_bound first = planter_bound(b->w, l->from, true, odd, leaf),
	                     last = planter_bound(b->w, l->to, false, odd, leaf);
	struct course c = { .from = first.longest_um,
		.to = l->length_um - last.longest_um,
		.least_first = least_of(b, &first),
		.least_last = least_of(b, &last),
		.corner_first = first.corner,
		.corner_last = last.corner,
		.has_joint = { first.joint, last.joint } };

	c.length = c.to - c.from;
	c.joint2[0] = 2 * c.from - b->joint;
	c.joint2[1] = 2 * c.to + b->joint;
	return c;
}

/* The course whose first unit is that long; false where it does not come out. */
static bool way_of(
        const struct bonding *b, const struct course *c, int64_t first, struct planter_way *out)
{
	int64_t rest = c->length - first - b->joint;

	*out = (struct planter_way){ .from_um = c->from, .to_um = c->to, .first_um = first };
	if (first <= 0 || first > b->block)
		return false;
	if (first == c->length)
		return true;
	if (rest <= 0)
		return false;
	if (rest > b->block)
		out->whole = (rest - b->block + b->pitch - 1) / b->pitch;
	out->last_um = rest - out->whole * b->pitch;
	return out->last_um > 0;
}

static int64_t price_unit(const struct bonding *b, int64_t length, bool corner)
{
	if (length == b->block)
		return 0;
	return (length == b->half && !corner ? HALF : CUT) + (corner ? CUT_CORNER : 0);
}

/* A unit that does not cover its corner, or is all mitre, counts as many faults. */
static int64_t faults_of(const struct bonding *b, int64_t length, int64_t least, bool corner)
{
	int64_t must = 0;

	if (corner)
		must = b->w->p->block.width_um;
	else if (least > b->least)
		must = least - b->least * 3 / 4;
	return (length < least) + (length < must ? UNCOVERED : 0);
}

/* A leg of one unit, whose mitres have room by its inside. */
static int64_t faults_alone(const struct bonding *b, const struct course *c, int64_t length)
{
	bool corner = c->corner_first || c->corner_last;

	return (length < c->least_first + c->least_last - b->least) +
	       (corner && length < b->w->p->block.width_um ? UNCOVERED : 0);
}

static struct cost cost_of(
        const struct bonding *b, const struct course *c, const struct planter_way *w)
{
	struct cost cost = { { 0 } };

	if (!w->last_um) {
		cost.part[0] = faults_alone(b, c, w->first_um);
		cost.part[2] = price_unit(b, w->first_um, c->corner_first || c->corner_last);
		return cost;
	}
	cost.part[0] = faults_of(b, w->first_um, c->least_first, c->corner_first) +
	               faults_of(b, w->last_um, c->least_last, c->corner_last);
	cost.part[2] = price_unit(b, w->first_um, c->corner_first) +
	               price_unit(b, w->last_um, c->corner_last);
	return cost;
}

/* --- laps --- */

/* Upright joints at one pitch: twice the middle of the first, and how many follow. */
struct comb {
	int64_t first2, more;
};

/* Twice the least distance of two combs' teeth. */
static int64_t combs_apart2(const struct comb *a, const struct comb *b, int64_t pitch)
{
	int64_t d = b->first2 - a->first2, p = 2 * pitch;
	int64_t i = -(d >= 0 ? (d + pitch) / p : -((-d + pitch) / p));

	if (i < -a->more)
		i = -a->more;
	if (i > b->more)
		i = b->more;
	d += i * p;
	return d < 0 ? -d : d;
}

static int combs_of(const struct bonding *b, const struct course *c, const struct planter_way *w,
        struct comb out[3])
{
	int n = 0;

	for (int i = 0; i < 2; i++)
		if (c->has_joint[i])
			out[n++] = (struct comb){ c->joint2[i], 0 };
	if (w->last_um)
		out[n++] = (struct comb){ 2 * (w->from_um + w->first_um) + b->joint, w->whole };
	return n;
}

/* Twice the least lap; INT64_MAX where no two joints stand over each other's courses. */
static int64_t lap2(
        const struct bonding *b, const struct course c[2], const struct planter_way w[2])
{
	struct comb odd[3], even[3];
	int n = combs_of(b, &c[0], &w[0], odd), m = combs_of(b, &c[1], &w[1], even);
	int64_t least = INT64_MAX;

	for (int i = 0; i < n; i++)
		for (int j = 0; j < m; j++) {
			int64_t apart = combs_apart2(&odd[i], &even[j], b->pitch);

			least = apart < least ? apart : least;
		}
	return least;
}

static struct cost cost_of_pair(
        const struct bonding *b, const struct course c[2], const struct planter_way w[2])
{
	struct cost first = cost_of(b, &c[0], &w[0]), second = cost_of(b, &c[1], &w[1]);
	struct cost cost = cost_sum(&first, &second);
	int64_t lap = lap2(b, c, w), whole = 2 * b->pitch;

	if (lap > whole)
		lap = whole;
	cost.part[0] += lap < 2 * b->least;
	cost.part[1] = lap < whole * 3 / 8;
	cost.part[3] = -lap;
	return cost;
}

/* --- candidates --- */

struct list {
	int64_t first[CANDIDATES + FINE];
	int count;
};

static void add(const struct bonding *b, struct list *list, int64_t first)
{
	if (first > 0 && first <= b->block)
		list->first[list->count++] = first;
}

/* The first unit that leaves a last one of that length. */
static void add_last(
        const struct bonding *b, const struct course *c, struct list *list, int64_t last)
{
	int64_t first = (c->length - last - b->joint) % b->pitch;

	add(b, list, first);
	if (first == 0)
		add(b, list, b->pitch);
}

static struct list candidates(const struct bonding *b, const struct course *c)
{
	struct list list = { .count = 0 };
	int64_t ends = c->length - b->joint;

	if (c->length <= b->block)
		add(b, &list, c->length);
	add(b, &list, b->block);
	add(b, &list, b->half);
	add(b, &list, b->least);
	add(b, &list, c->least_first);
	add(b, &list, b->w->r->leaves[0].v1_um + b->least);
	add_last(b, c, &list, b->block);
	add_last(b, c, &list, b->half);
	add_last(b, c, &list, b->least);
	add_last(b, c, &list, c->least_last);
	/* What is left shared out to both ends. */
	for (int64_t n = ends / b->pitch; n >= 0 && n > ends / b->pitch - 3; n--)
		add(b, &list, (ends - n * b->pitch) / 2);
	return list;
}

/* First units that put this course's joints so far beside those of the other. */
static void add_beside(const struct bonding *b, const struct course *c, const struct course *other,
        int64_t others_first, struct list *list)
{
	const int64_t beside[] = { b->pitch / 2, b->least, b->pitch - b->least };

	for (int i = 0; i < 3; i++) {
		int64_t first = (other->from + others_first + beside[i] - c->from) % b->pitch;

		add(b, list, first < 0 ? first + b->pitch : first);
	}
}

static void try_pair(const struct bonding *b, const struct course c[2], int64_t odd, int64_t even,
        struct leg_bond *best)
{
	struct planter_way w[2];
	struct cost cost;

	if (!way_of(b, &c[0], odd, &w[0]) || !way_of(b, &c[1], even, &w[1]))
		return;
	cost = cost_of_pair(b, c, w);
	if (best->found && !cost_is_less(&cost, &best->cost))
		return;
	*best = (struct leg_bond){ { w[0], w[1] }, cost, true };
}

static void try_lists(const struct bonding *b, const struct course c[2], const struct list *odd,
        const struct list *even, struct leg_bond *best)
{
	for (int i = 0; i < odd->count; i++) {
		struct list beside = *even;

		if (beside.count + 3 <= CANDIDATES)
			add_beside(b, &c[1], &c[0], odd->first[i], &beside);
		for (int j = 0; j < beside.count; j++)
			try_pair(b, c, odd->first[i], beside.first[j], best);
	}
}

/* Where the usual candidates leave a fault or miss half bond, all of a block's length is tried. */
static void try_finely(const struct bonding *b, const struct course c[2], struct list lists[2],
        struct leg_bond *best)
{
	for (int k = 0; k < 2; k++)
		for (int i = 1; i < FINE; i++)
			add(b, &lists[k], b->block * i / FINE);
	try_lists(b, c, &lists[0], &lists[1], best);
}

struct leg_bond leg_bond_find(const struct bonding *b, size_t leg, int leaf)
{
	const struct course c[2] = { course_of(b, leg, leaf, true),
		course_of(b, leg, leaf, false) };
	struct leg_bond best = { .cost = cost_dearest() };
	struct list lists[2];

	if (c[0].length <= 0 || c[1].length <= 0)
		return best;
	lists[0] = candidates(b, &c[0]);
	lists[1] = candidates(b, &c[1]);
	try_lists(b, c, &lists[0], &lists[1], &best);
	for (int j = 0; j < lists[1].count; j++) {
		struct list odd = { .count = 0 };

		add_beside(b, &c[0], &c[1], lists[1].first[j], &odd);
		for (int i = 0; i < odd.count; i++)
			try_pair(b, c, odd.first[i], lists[1].first[j], &best);
	}
	if (!best.found || best.cost.part[0] || best.cost.part[1])
		try_finely(b, c, lists, &best);
	return best;
}
