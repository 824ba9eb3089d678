/* The computation linked with nothing but itself: that this links is the test. */
#include "slabwright/takeoff.h"

int main(void)
{
	struct arena mem = { 0 };
	struct plan plan;
	struct rules rules = { .name = "none" };
	struct takeoff t;
	enum status st;

	plan_init(&plan);
	st = takeoff_plan(&mem, &plan, &rules, &t, NULL);
	arena_free(&mem);
	return st == STATUS_OK ? 0 : 1;
}
