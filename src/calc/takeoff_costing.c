/* takeoff_costing.c - what the job costs and how long it takes, when all else is worked out. */
#include "takeoff_parts.h"

enum status takeoff_costing(struct arena *mem, struct takeoff *t, struct error *err)
{
	struct costing *c = &t->costing;
	enum status st = costs_check(&t->plan.costs, "costs.", &c->price_fault);

	*c = (struct costing){ .price_fault = c->price_fault, .schedule_fault = c->price_fault };
	if (st != STATUS_OK)
		return STATUS_OK;
	st = price_work_out(mem, t, &t->materials, &c->price, &c->price_fault);
	c->has_price = st == STATUS_OK;
	if (st != STATUS_MEMORY)
		st = schedule_work_out(mem, t, &c->schedule, &c->schedule_fault);
	c->has_schedule = st == STATUS_OK;
	return st == STATUS_MEMORY ? error_memory(err) : STATUS_OK;
}
