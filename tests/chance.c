/* chance.c - a counter that goes up by a large odd step, and a mixer. */
#include "chance.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

uint64_t chance_seed(const char *test, uint64_t usual)
{
	const char *wish = getenv("SLABWRIGHT_SEED");
	uint64_t seed = wish ? strtoull(wish, NULL, 0) : usual;

	printf("%s: seed %" PRIu64 " (SLABWRIGHT_SEED chooses another)\n", test, seed);
	fflush(stdout);
	return seed;
}

uint64_t chance_next(struct chance *c)
{
	uint64_t z = c->state += UINT64_C(0x9E3779B97F4A7C15);

	z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
	z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
	return z ^ (z >> 31);
}

struct chance chance_new(uint64_t seed)
{
	return (struct chance){ seed };
}

int64_t chance_int(struct chance *c, int64_t least, int64_t most)
{
	return least + (int64_t)(chance_next(c) % (uint64_t)(most - least + 1));
}

double chance_real(struct chance *c, double least, double most)
{
	return least + (most - least) * ((double)(chance_next(c) >> 11) / 9007199254740992.0);
}
