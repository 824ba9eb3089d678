/* plan_facts.h - what stands beside the plan. */
#ifndef SHEET_PLAN_FACTS_H
#define SHEET_PLAN_FACTS_H

#include "table.h"

/* Every edge with its kind and its lengths, numbered over the whole plan as corners are. */
void plan_list_edges(struct flow *f);
/* Area, openings, borders, zones. */
void plan_list_facts(struct flow *f);

#endif
