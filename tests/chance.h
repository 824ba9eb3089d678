/* chance.h - numbers that look random, the same for the same seed. */
#ifndef TESTS_CHANCE_H
#define TESTS_CHANCE_H

#include <stdint.h>

/* Long runs of random jobs do one of so many under the sanitizers, which take their time. */
#ifdef __SANITIZE_ADDRESS__
enum { ONE_OF = 5 };
#else
enum { ONE_OF = 1 };
#endif

struct chance {
	uint64_t state;
};

/* The seed to begin with: SLABWRIGHT_SEED, or the one given; printed, so that a failure can be run
 * again. */
uint64_t chance_seed(const char *test, uint64_t usual);
struct chance chance_new(uint64_t seed);
uint64_t chance_next(struct chance *c); /* 64 even bits */
int64_t chance_int(struct chance *c, int64_t least, int64_t most);
double chance_real(struct chance *c, double least, double most);

#endif
