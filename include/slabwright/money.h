/* money.h - sums of money, in minor units (cents, pence) and rounded once, half away from 0.
 *
 * Products are worked out in 128 bits, so that nothing is rounded before. What comes to more than
 * 10^18 either way comes out as 10^18: callers refuse sums long before. */
#ifndef SLABWRIGHT_MONEY_H
#define SLABWRIGHT_MONEY_H

#include <stdint.h>

#define MONEY_WHOLE 100 /* minor units in one of whole money */

/* So many thousandths of something at so much each. */
int64_t money_times(int64_t quantity_milli, int64_t each_minor);
/* So many millionths of a sum. */
int64_t money_share(int64_t minor, int64_t ppm);
/* The nearest sum of whole money. */
int64_t money_whole(int64_t minor);

#endif
