/* thumb.c - what the common rule of thumb would come to, in words. */
#include "slabwright/sheet.h"

#include <inttypes.h>

char *thumb_print(char *buf, size_t size, const struct order *o)
{
	int64_t spare = o->rule_of_thumb - o->needed, over = o->rule_of_thumb - o->slabs;

	if (spare < 0)
		snprintf(buf, size, "%" PRId64 " slab%s short of those needed", -spare,
		        spare == -1 ? "" : "s");
	else if (spare < o->allowance)
		snprintf(buf, size,
		        "enough for those needed, but it leaves %" PRId64
		        " for breakage in place of %" PRId64,
		        spare, o->allowance);
	else if (over < 0)
		snprintf(buf, size, "enough, but %" PRId64 " short of whole packs", -over);
	else if (over > 0)
		snprintf(buf, size, "%" PRId64 " slab%s too many", over, over == 1 ? "" : "s");
	else
		snprintf(buf, size, "just as many");
	return buf;
}
