/* schedule_parts.h - inside calc: the order of work, for schedule.c. */
#ifndef SLABWRIGHT_CALC_SCHEDULE_PARTS_H
#define SLABWRIGHT_CALC_SCHEDULE_PARTS_H

#include "slabwright/schedule.h"

const char *schedule_hold_words(enum hold hold);
/* Adds a note that is a constant or lives as long as the schedule. */
void schedule_note(struct schedule *s, const char *text);
/* What weather allows, of the activities in the job. */
void schedule_note_limits(struct schedule *s);

#endif
