/* rules.c - looking a limit up. A rule set has a handful of them. */
#include "slabwright/rules.h"

#include <string.h>

const struct rule *rules_find(const struct rules *rules, const char *key)
{
	for (size_t i = 0; i < rules->count; i++)
		if (strcmp(rules->items[i].key, key) == 0)
			return &rules->items[i];
	return NULL;
}
