/* drive.h - the planner driven by keys, on a store of its own in a temporary folder. */
#ifndef TESTS_DRIVE_H
#define TESTS_DRIVE_H

#include "screen/term.h"

struct drive {
	struct term *t;
	char folder[64], store[96];
	const char *options[4]; /* further ones, for the next start */
};

void drive_begin(struct drive *d); /* makes the folder; a failed check ends the test */
void drive_start(struct drive *d, int rows, int cols);
void drive_quit(struct drive *d); /* by its key; checks the exit status */
void drive_end(struct drive *d); /* stops the program, removes the folder */

/* Sends keys written as words, a blank between: "Enter Left S-Up Tab" are keys, anything else is
 * typed as it is; "_" types a blank. "@Order" goes to that stage. */
void drive_keys(struct drive *d, const char *words);
/* Checks that the text comes to the screen, or goes from it. */
void drive_sees(struct drive *d, const char *text);
void drive_misses(struct drive *d, const char *text);
/* Checks that a row of the screen has `label` and, after it, `value` as a word of its own. */
void drive_figure(struct drive *d, const char *label, const char *value);

/* From the list of clients to an empty outline: client "Demo client", job "Courtyard", variant "A".
 */
void drive_new_variant(struct drive *d);

/* The courtyard of these tests, step by step: 6.20 m x 3.00 m by the tape, corner 1 at 0, 0, the
 * house along edge 1; its opening of 0.60 m x 0.60 m at 1.20, 0.60 (the cell is 0.30 m then); at
 * Laying, stack bond; and all of it, with the cursor moved to 1.80, 0.90. */
void drive_courtyard(struct drive *d);
void drive_opening(struct drive *d);
void drive_stack_bond(struct drive *d);
void drive_at_laying(struct drive *d);

#endif
