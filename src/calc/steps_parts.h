/* steps_parts.h - between the files that work out a flight. */
#ifndef CALC_STEPS_PARTS_H
#define CALC_STEPS_PARTS_H

#include "slabwright/steps.h"

struct steps_job {
	struct arena *mem;
	const struct plan *plan;
	const struct rules *rules;
};

/* Riser that unit (or riser piece and tread) makes on its bed, um. */
int64_t steps_made_um(const struct plan_steps *steps, int64_t tread_fall_um);

/* steps_rules.c: sets the number, or the fault. Then the checks, handrail, guard and goings. */
enum status steps_choose(const struct steps_job *job, struct flight *f, struct error *err);
enum status steps_check_rules(const struct steps_job *job, struct flight *f, struct error *err);

/* steps_rows.c: levels, rows, stack and overlap; and what is to be said of them. */
enum status steps_set_rows(const struct steps_job *job, struct flight *f, struct error *err);
enum status steps_say(const struct steps_job *job, struct flight *f, struct error *err);

/* steps_pieces.c: what lies where, and what is bought. */
enum status steps_set_pieces(const struct steps_job *job, struct flight *f, struct error *err);

/* A text of the arena as a note; NULL is memory gone. */
enum status steps_note(struct flight *f, const char *text, struct error *err);

#endif
