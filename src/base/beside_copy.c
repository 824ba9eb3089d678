/* beside_copy.c - deep copies of what a plan holds beside the paving itself. */
#include "parts.h"

/* A text at `at` of each of the items replaced by a copy. */
static bool copy_texts(struct arena *mem, void *items, size_t count, size_t size, size_t at)
{
	for (size_t i = 0; i < count; i++) {
		const char **text = (const char **)(void *)((char *)items + i * size + at);

		if (!(*text = arena_text(mem, *text)))
			return false;
	}
	return true;
}

#define COPY(to, from, count) ((to) = copy_items(mem, from, count, sizeof *(to)))
#define NAMES(items, count, member)                                                                \
	copy_texts(mem, items, count, sizeof *(items),                                             \
	        (size_t)((char *)&(items)->member - (char *)(items)))

bool water_copy(struct arena *mem, const struct plan_water *from, struct plan_water *to)
{
	struct plan_water w = *from;

	if (!(w.rain.name = arena_text(mem, from->rain.name)) ||
	        !(w.rain.source = arena_text(mem, from->rain.source)) ||
	        !COPY(w.rain.rows, from->rain.rows, w.rain.count) ||
	        !COPY(w.channels, from->channels, w.channel_count) ||
	        !NAMES(w.channels, w.channel_count, name) ||
	        !COPY(w.gullies, from->gullies, w.gully_count) ||
	        !NAMES(w.gullies, w.gully_count, name))
		return false;
	*to = w;
	return true;
}

bool site_copy(struct arena *mem, const struct plan_site *from, struct plan_site *to)
{
	struct plan_site s = *from;

	if (!COPY(s.book.readings, from->book.readings, s.book.count) ||
	        !NAMES(s.book.readings, s.book.count, name) ||
	        !COPY(s.spots, from->spots, s.spot_count) || !NAMES(s.spots, s.spot_count, name) ||
	        !COPY(s.pegs, from->pegs, s.peg_count) || !NAMES(s.pegs, s.peg_count, name) ||
	        !COPY(s.measured, from->measured, s.measured_count) ||
	        !NAMES(s.measured, s.measured_count, name))
		return false;
	*to = s;
	return true;
}

bool costs_copy(struct arena *mem, const struct plan_costs *from, struct plan_costs *to)
{
	struct plan_costs c = *from;

	if (!(c.currency = arena_text(mem, from->currency)) ||
	        !(c.price_date = arena_text(mem, from->price_date)) ||
	        !(c.price_note = arena_text(mem, from->price_note)) ||
	        !(c.start_date = arena_text(mem, from->start_date)) ||
	        !NAMES(c.materials, MATERIALS, name) || !NAMES(c.materials, MATERIALS, supplier) ||
	        !copy_texts(mem, c.suppliers, GOODS, sizeof *c.suppliers, 0) ||
	        !COPY(c.hire, from->hire, c.hire_count) || !NAMES(c.hire, c.hire_count, name) ||
	        !COPY(c.extras, from->extras, c.extra_count) ||
	        !NAMES(c.extras, c.extra_count, name) || !NAMES(c.extras, c.extra_count, unit))
		return false;
	*to = c;
	return true;
}

bool planters_copy(
        struct arena *mem, const struct plan_planter *from, size_t count, struct plan_planter **to)
{
	struct plan_planter *items = copy_items(mem, from, count, sizeof *items);

	if (!items || !NAMES(items, count, name) || !NAMES(items, count, block.name) ||
	        !NAMES(items, count, cap_name))
		return false;
	for (size_t i = 0; i < count; i++)
		if (!COPY(items[i].points, from[i].points, items[i].count))
			return false;
	*to = items;
	return true;
}

bool steps_copy(
        struct arena *mem, const struct plan_steps *from, size_t count, struct plan_steps **to)
{
	struct plan_steps *items = copy_items(mem, from, count, sizeof *items);

	if (!items || !NAMES(items, count, name) || !NAMES(items, count, unit_name))
		return false;
	*to = items;
	return true;
}
