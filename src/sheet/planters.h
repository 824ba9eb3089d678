/* planters.h - inside the sheets: planters in three forms, and the words they share. */
#ifndef SHEET_PLANTERS_H
#define SHEET_PLANTERS_H

#include "form.h"

/* Corners and points are numbered from 1 as in the plan, legs from 1 in order. */
void text_planters(FILE *to, const struct takeoff *t);
void csv_planters(FILE *to, const struct takeoff *t);
void json_planters(struct json *to, const struct takeoff *t);

/* "odd", "even": which courses a pattern stands for. */
const char *course_name(int pattern);
/* "end", "square", "mitre". */
const char *planter_turn_name(enum planter_turn turn);

/* The elevation of a leg, course by course: one line each, the top one first. */
void text_elevation(FILE *to, const struct planter_result *r, size_t leg);

/* Pieces that come from one block alike, over how many blocks running: units[*first ..] of the
 * plan. */
size_t alike_units(const struct pack_plan *plan, size_t first);

#endif
