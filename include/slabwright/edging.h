/* edging.h - lengths along the edges, by kind, and the units they take. */
#ifndef SLABWRIGHT_EDGING_H
#define SLABWRIGHT_EDGING_H

#include "slabwright/geom.h"

struct edging_line {
	enum edge_kind kind;
	double length_m;
	size_t edges;
	const char *unit_name; /* "" where nothing is bought by the piece */
	int64_t unit_um; /* 0 likewise */
	int64_t whole; /* units laid whole */
	int64_t cut; /* pieces cut at the ends of edges */
	int64_t units; /* to buy: whole, and those the cut pieces come from (first fit, longest
	                  first) */
	int64_t bound; /* no fewer can do: total length of cut pieces over a unit, rounded up, plus
	                  whole */
};

struct edging_result {
	struct edging_line *lines; /* kinds that occur, in the order of enum edge_kind */
	size_t count;
};

/* kerf_um is what a cut takes from a unit. An edge of length L takes floor((L + joint) / (unit +
 * joint)) whole units and one piece for what is left, if more than the joint is left. */
enum status edging_work_out(struct arena *mem, const struct plan *plan, int64_t kerf_um,
        struct edging_result *out, struct error *err);

#endif
