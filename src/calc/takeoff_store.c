/* takeoff_store.c - the one place where the computation meets the store. */
#include "slabwright/store.h"
#include "slabwright/takeoff.h"

enum status takeoff_variant(struct arena *mem, struct store *store, int64_t variant,
        struct takeoff *out, struct error *err)
{
	struct plan plan;
	struct rules rules;
	enum status st = store_plan(store, variant, mem, &plan, err);

	if (st == STATUS_OK)
		st = store_rules(store, plan.rule_set, mem, &rules, err);
	return st == STATUS_OK ? takeoff_plan(mem, &plan, &rules, out, err) : st;
}
