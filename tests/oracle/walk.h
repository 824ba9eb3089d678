/* walk.h - every slab position of a pattern, one after the other. */
#ifndef TESTS_ORACLE_WALK_H
#define TESTS_ORACLE_WALK_H

#include "slabwright/pattern.h"

/* Every position of the pattern that can reach the box, by course, part and index. */
struct walk {
	const struct pattern *p;
	struct box box;
	struct slab_spot spot;
	int64_t last_course, last_index;
};
struct walk walk_start(const struct pattern *p, struct box box);

/* The next position, in w->spot; false when there is none. */
bool walk_on(struct walk *w);

#endif
