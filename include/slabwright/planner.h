/* planner.h - the full-screen program. */
#ifndef SLABWRIGHT_PLANNER_H
#define SLABWRIGHT_PLANNER_H

#include "slabwright/store.h"

struct planner_options {
	int64_t variant; /* to open; 0: the one open last, else the list of clients */
	bool ascii; /* plain ASCII even where the terminal could do more */
	bool colour; /* false: no colours */
};

/* Runs until the user leaves or the terminal goes away; gives the terminal back first. */
enum status planner_run(
        struct store *store, const struct planner_options *options, struct error *err);

#endif
