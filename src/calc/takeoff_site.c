/* takeoff_site.c - what is measured on site: the book, setting out, what was built. */
#include "takeoff_parts.h"

#include <string.h>

enum status takeoff_book(struct arena *mem, struct takeoff *t, struct error *err)
{
	struct site_result *site = &t->site;
	enum status st;

	if (!t->plan.site.book.count)
		return STATUS_OK;
	st = book_reduce(mem, &t->plan.site.book, &site->book, &site->book_fault);
	site->has_book = st == STATUS_OK;
	return st == STATUS_MEMORY ? error_memory(err) : STATUS_OK;
}

enum status takeoff_site(struct arena *mem, struct takeoff *t, struct error *err)
{
	struct site_result *site = &t->site;
	struct asbuilt_surface *surface;
	enum status st = setout_work_out(mem, &t->plan, &site->setout, &site->setout_fault);

	if (st == STATUS_MEMORY)
		return error_memory(err);
	site->has_setout = st == STATUS_OK;
	if (!t->plan.site.measured_count)
		return STATUS_OK;
	surface = arena_alloc(mem, 1, sizeof *surface);
	if (!surface)
		return error_memory(err);
	st = asbuilt_surface_init(mem, &t->plan, surface, err);
	if (st == STATUS_OK)
		st = asbuilt_check(mem, &t->plan, &t->rules,
		        t->plan.surface.count ? asbuilt_surface_level : NULL, surface, &site->built,
		        err);
	site->has_built = st == STATUS_OK;
	return st;
}

enum status takeoff_earth(struct arena *mem, struct takeoff *t, struct error *err)
{
	const struct plan_site *site = &t->plan.site;
	struct plan_spot *read = NULL, *levels;
	size_t count = 0;

	if (t->site.has_book && book_spots(mem, &t->site.book, &read, &count, err) != STATUS_OK)
		return STATUS_MEMORY;
	levels = arena_alloc(mem, site->spot_count + count, sizeof *levels);
	if (!levels)
		return error_memory(err);
	if (site->spot_count)
		memcpy(levels, site->spots, site->spot_count * sizeof *levels);
	if (count)
		memcpy(levels + site->spot_count, read, count * sizeof *levels);
	return earth_work_out(mem, &t->plan, levels, site->spot_count + count, &t->region, &t->laid,
	        &t->earth, err);
}
