/* parts.h - inside base: what the checks and copies of a plan's parts share. */
#ifndef SLABWRIGHT_BASE_PARTS_H
#define SLABWRIGHT_BASE_PARTS_H

#include "slabwright/plan.h"

/* Copies count items; NULL only when memory is gone. */
void *copy_items(struct arena *mem, const void *items, size_t count, size_t size);

/* The place of a word in a list; -1 for one that is not there. */
int find_word(const char *const *words, int count, const char *word);

/* One value that must lie between two limits, all in um. */
struct limit {
	const char *name;
	int64_t value, least, most;
};
enum status check_limits(
        const struct limit *limits, size_t count, const char *place, struct error *err);

/* What laying_check refuses in a slab, and in a course's offset. */
enum status slab_check(const struct plan_slab *slab, const char *place, struct error *err);
enum status offset_check(double offset, const char *place, struct error *err);

#endif
