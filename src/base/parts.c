/* parts.c - border courses and zones: defaults, words, copies, and the limits of single values. */
#include "parts.h"

#include <stdio.h>

static const char *const lays[] = { "soldier", "stretcher" };
static const char *const corners[] = { "mitred", "butted" };
static const char *const begins[] = { "corner", "middle" };

const char *border_lay_name(enum border_lay lay)
{
	return lays[lay];
}

int border_lay_parse(const char *word)
{
	return find_word(lays, 2, word);
}

const char *border_corner_name(enum border_corner corner)
{
	return corners[corner];
}

int border_corner_parse(const char *word)
{
	return find_word(corners, 2, word);
}

const char *border_begin_name(enum border_begin begin)
{
	return begins[begin];
}

int border_begin_parse(const char *word)
{
	return find_word(begins, 2, word);
}

void border_init(struct plan_border *border)
{
	struct plan defaults;

	plan_init(&defaults);
	*border = (struct plan_border){ .slab = defaults.laying.slab,
		.deep = 1,
		.offset = 0.5,
		.widest_joint_um = 15 * UM_PER_MM };
	border->slab.length_um = 200 * UM_PER_MM;
	border->slab.width_um = 100 * UM_PER_MM;
}

void zone_init(struct plan_zone *zone)
{
	struct plan defaults;

	plan_init(&defaults);
	*zone = (struct plan_zone){
		.name = "", .ring.closed = true, .paved = true, .laying = defaults.laying
	};
}

struct border_size border_size(const struct plan_border *border)
{
	struct slab_size s = slab_size(&border->slab);

	if (border->lay == BORDER_SOLDIER)
		return (struct border_size){ s.length_um, s.width_um, s.pitch_x_um, s.pitch_y_um };
	return (struct border_size){ s.width_um, s.length_um, s.pitch_y_um, s.pitch_x_um };
}

int64_t border_depth_um(const struct plan_border *border)
{
	return border->deep * border_size(border).pitch_across_um;
}

char *border_print(char *buf, size_t size, const struct plan_border *border)
{
	char l[40], w[40], deep[24];

	snprintf(deep, sizeof deep, "%lld ", (long long)border->deep);
	snprintf(buf, size, "%s%s course%s of %s x %s slabs, %s", border->deep == 1 ? "" : deep,
	        border_lay_name(border->lay), border->deep == 1 ? "" : "s",
	        mm_print(l, sizeof l, border->slab.length_um),
	        mm_print(w, sizeof w, border->slab.width_um), border_corner_name(border->corners));
	return buf;
}

bool borders_copy(
        struct arena *mem, const struct plan_border *from, size_t count, struct plan_border **to)
{
	struct plan_border *items = copy_items(mem, from, count, sizeof *items);

	for (size_t i = 0; items && i < count; i++)
		if (!(items[i].slab.name = arena_text(mem, from[i].slab.name)))
			return false;
	*to = items;
	return items != NULL;
}

bool zones_copy(
        struct arena *mem, const struct plan_zone *from, size_t count, struct plan_zone **to)
{
	struct plan_zone *items = copy_items(mem, from, count, sizeof *items);

	for (size_t i = 0; items && i < count; i++) {
		struct plan_zone *z = &items[i];

		z->name = arena_text(mem, from[i].name);
		z->ring.nodes =
		        copy_items(mem, from[i].ring.nodes, z->ring.count, sizeof *z->ring.nodes);
		if (!z->name || !z->ring.nodes || !laying_copy(mem, &from[i].laying, &z->laying))
			return false;
	}
	*to = items;
	return items != NULL;
}

enum status borders_check(
        const struct plan_border *borders, size_t count, const char *place, struct error *err)
{
	if (count > BORDERS)
		return error_set(err, STATUS_PLAN, "%sborders: %zu of them; give at most %d", place,
		        count, BORDERS);
	for (size_t i = 0; i < count; i++) {
		const struct plan_border *b = &borders[i];
		const struct limit joint = { "widest_joint", b->widest_joint_um, b->slab.joint_um,
			100 * UM_PER_MM };
		char where[200];
		enum status st;

		snprintf(where, sizeof where, "%sborders[%zu].", place, i);
		if ((st = slab_check(&b->slab, where, err)) != STATUS_OK ||
		        (st = offset_check(b->offset, where, err)) != STATUS_OK ||
		        (st = check_limits(&joint, 1, where, err)) != STATUS_OK)
			return st;
		if (b->deep < 1 || b->deep > 2)
			return error_set(err, STATUS_PLAN, "%sdeep: give 1 or 2 courses", where);
	}
	return STATUS_OK;
}

enum status zones_check(
        const struct plan_zone *zones, size_t count, const char *place, struct error *err)
{
	if (count > ZONES)
		return error_set(err, STATUS_PLAN, "%szones: %zu of them; give at most %d", place,
		        count, ZONES);
	for (size_t i = 0; i < count; i++) {
		const struct plan_zone *z = &zones[i];
		const struct limit level = { "level", z->level_um, -UM_PER_M, UM_PER_M };
		char where[200];
		enum status st;

		snprintf(where, sizeof where, "%szones[%zu].", place, i);
		if ((st = check_limits(&level, 1, where, err)) != STATUS_OK)
			return st;
		snprintf(where, sizeof where, "%szones[%zu].laying.", place, i);
		if (z->paved && (st = laying_check(&z->laying, where, err)) != STATUS_OK)
			return st;
	}
	return STATUS_OK;
}

enum status plan_borders_check(const struct plan *plan, struct error *err)
{
	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t j = 0; j < plan->rings[i].count; j++) {
			int64_t border = plan->rings[i].nodes[j].border;

			if (border >= 0 && border <= (int64_t)plan->border_count)
				continue;
			return error_set(err, STATUS_PLAN,
			        "ring %zu, edge %zu: it names border %lld, and the plan has %zu; "
			        "name one of them, or 0 for none",
			        i + 1, j + 1, (long long)border, plan->border_count);
		}
	return STATUS_OK;
}
