/* packing_jobs.h - published jobs of cutting rectangles from sheets, with the best known answers.
 *
 * The files and where they come from: tests/data/packing/2d-README.md. They are read from the
 * folder the tests are run in. */
#ifndef TESTS_PACKING_JOBS_H
#define TESTS_PACKING_JOBS_H

#include "slabwright/guillotine.h"

struct packing_job {
	char name[32]; /* Class_04_20_3, gcut7d */
	int set; /* 1 to 10: the class; 11: gcut */
	struct guillotine_stock stock; /* one of the files' units is a millimetre; no kerf */
	struct guillotine_piece *pieces;
	size_t count;

	/* By whether the pieces may turn: the greatest lower bound in the tables, the fewest sheets
	 * known with cuts from edge to edge (classes: of three stages; gcut: of any number), and
	 * without that rule (gcut: 0, not known). */
	int bound[2], cut[2], free[2];
};

enum { PACKING_SETS = 11 };

/* Reads all of them into the arena; how many. Ends the program where a file cannot be read. */
size_t packing_jobs(struct arena *mem, struct packing_job **jobs);

/* The job's pieces with turning allowed or not, in an arena. */
struct guillotine_piece *packing_pieces(
        struct arena *mem, const struct packing_job *job, bool turns);

#endif
