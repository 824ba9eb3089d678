/* labour.h - how much there is to do of each task, and how long one person takes for it.
 *
 * Where each quantity comes from:
 *   strip topsoil    topsoil in the ground (earth.h), over-dig included
 *   dig              cut in the ground, likewise
 *   cart             topsoil and cut, loose: all that is dug is barrowed, wherever it goes
 *   membrane         area of the sub-base, where a membrane is wanted
 *   sub-base         sub-base, fill under the formation and what fills zones without slabs: m3
 *                    compacted
 *   drains           length of channels; a gully counts 2 m, a soakaway 10 m
 *   edging           length of edges that have a unit, a base strip or a haunch
 *   walls            blocks laid, of planters that can be built
 *   steps            units laid; risers of flights that are built up
 *   bedding          area of paved sections, gaps along edges included, where there is bedding
 *   laying           area of the field and of paved zones
 *   borders          length of border courses: their area over the course's pitch
 *   cutting          pieces cut, slivers among them, of paving slabs
 *   jointing         area of paved sections, where jointing is wanted; sealing likewise
 *   filling planters soil and gravel in place
 *   clearing up      1
 * Hours of a task are its quantity times the plan's minutes a unit, rounded to a hundredth of an
 * hour, at least one where there is anything to do. */
#ifndef SLABWRIGHT_LABOUR_H
#define SLABWRIGHT_LABOUR_H

#include "slabwright/plan.h"

struct takeoff;

struct labour_task {
	double quantity; /* in task_unit */
	int64_t hours_centi; /* of one person, hundredths of an hour */
	const char
	        *parts; /* "field: 20.000 m2, zone 1: 3.000 m2"; "" where there is nothing to do */
	const char *fault; /* why the quantity, or a part of it, is not known, and the remedy; ""
	                      known */
};

struct labour {
	struct labour_task tasks[TASKS];
	int64_t hours_centi; /* of all */
	/* What hardens: some edging has a bed or a haunch; there are channels. */
	bool haunched, channels;
};

/* A take-off that is not ready is refused (STATUS_PLAN) with its fault, and so is work of over
 * 10^10 hours. STATUS_MEMORY. */
enum status labour_work_out(
        struct arena *mem, const struct takeoff *t, struct labour *out, struct error *err);

/* Quantity times minutes (thousandths) a unit, in hundredths of an hour. */
int64_t labour_hours_centi(double quantity, int64_t minutes_milli);

/* Decimals with which a quantity is shown; 0 of what is counted. */
int labour_decimals(enum task task);

/* How long the crew takes for so many hours of one person, minutes, rounded up. */
int64_t labour_crew_minutes(int64_t hours_centi, int64_t crew);

/* Whether the task's rate is the one that comes with the program. */
bool labour_usual_rate(const struct plan_costs *costs, enum task task);

#endif
