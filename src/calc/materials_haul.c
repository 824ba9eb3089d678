/* materials_haul.c - loads of a vehicle, none over its payload.
 *
 * A load takes the heaviest bags and pieces first, as many of each as fit, and fills up with what
 * is loose. As long as the same load can be driven again it is, so that jobs of any size take no
 * more kinds of loads than there are lines, and then some. Masses are whole grams. */
#include "materials_parts.h"

#include <math.h>

/* What is left of a line. */
struct left {
	size_t line;
	int64_t each_g; /* 0: loose */
	int64_t pieces, loose_g;
};

struct loading {
	struct arena *mem;
	struct left *left; /* heaviest piece first, loose last */
	size_t count, room;
	int64_t payload_g;
	struct haul *out;
};

static void put_in_order(struct loading *l, struct left add)
{
	size_t at = l->count++;

	for (; at && l->left[at - 1].each_g < add.each_g; at--)
		l->left[at] = l->left[at - 1];
	l->left[at] = add;
}

static enum status gather(struct loading *l, const struct material_line *lines, size_t count,
        bool away, struct error *err)
{
	struct haul *out = l->out;

	l->left = arena_alloc(l->mem, count, sizeof *l->left);
	out->too_heavy = arena_alloc(l->mem, count, sizeof *out->too_heavy);
	if (!l->left || !out->too_heavy)
		return error_memory(err);
	for (size_t i = 0; i < count; i++) {
		int64_t each = llround(lines[i].each_kg * 1e3);

		if (lines[i].away != away || !lines[i].buy)
			continue;
		out->mass_kg += lines[i].mass_kg;
		out->mass_known = out->mass_known && lines[i].mass_kg > 0;
		if (each > l->payload_g)
			out->too_heavy[out->too_heavy_count++] = i;
		else if (each > 0)
			put_in_order(l, (struct left){ i, each, lines[i].buy, 0 });
		else if (lines[i].mass_kg > 0)
			put_in_order(l, (struct left){ i, 0, 0, llround(lines[i].mass_kg * 1e3) });
	}
	return STATUS_OK;
}

/* One load from what is left; how often it can be driven. */
static int64_t fill(struct loading *l, struct vehicle_load *load)
{
	int64_t space = l->payload_g, times = INT64_MAX;

	for (size_t i = 0; i < l->count; i++) {
		struct left *x = &l->left[i];
		int64_t grams, again;

		if (x->each_g) {
			int64_t n = space / x->each_g < x->pieces ? space / x->each_g : x->pieces;

			if (!n)
				continue;
			grams = n * x->each_g;
			again = x->pieces / n;
			load->items[load->count++] =
			        (struct load_item){ x->line, n, (double)grams * 1e-3 };
		} else {
			grams = space < x->loose_g ? space : x->loose_g;
			if (!grams)
				continue;
			again = x->loose_g / grams;
			load->items[load->count++] =
			        (struct load_item){ x->line, 0, (double)grams * 1e-3 };
		}
		space -= grams;
		times = again < times ? again : times;
	}
	load->kg = (double)(l->payload_g - space) * 1e-3;
	return load->count ? times : 0;
}

static void drive(struct loading *l, const struct vehicle_load *load)
{
	for (size_t k = 0; k < load->count; k++)
		for (size_t i = 0; i < l->count; i++) {
			struct left *x = &l->left[i];

			if (x->line != load->items[k].line)
				continue;
			x->pieces -= load->items[k].pieces * load->times;
			if (!x->each_g)
				x->loose_g -= llround(load->items[k].kg * 1e3) * load->times;
		}
}

static enum status load_all(struct loading *l, struct error *err)
{
	struct haul *out = l->out;

	for (;;) {
		struct vehicle_load load = { .items = arena_alloc(
			                             l->mem, l->count, sizeof *load.items) },
		                    *grown;

		if (!load.items)
			return error_memory(err);
		load.times = fill(l, &load);
		if (!load.times)
			return STATUS_OK;
		grown = arena_grow(l->mem, out->loads, out->load_count, &l->room, sizeof *grown);
		if (!grown)
			return error_memory(err);
		out->loads = grown;
		out->loads[out->load_count++] = load;
		out->trips += load.times;
		drive(l, &load);
	}
}

enum status haul_work_out(struct arena *mem, const struct material_line *lines, size_t count,
        bool away, int64_t payload_g, struct haul *out, struct error *err)
{
	struct loading l = {
		.mem = mem, .payload_g = payload_g > 0 ? payload_g : INT64_MAX, .out = out
	};
	enum status st;
	int64_t sum = 0;

	*out = (struct haul){ .mass_known = true };
	if ((st = gather(&l, lines, count, away, err)) != STATUS_OK || payload_g <= 0)
		return st;
	for (size_t i = 0; i < l.count; i++)
		sum += l.left[i].pieces * l.left[i].each_g + l.left[i].loose_g;
	out->least = sum / payload_g + (sum % payload_g != 0);
	return load_all(&l, err);
}
