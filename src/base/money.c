/* money.c - see money.h. */
#include "slabwright/money.h"

__extension__ typedef __int128 wide;

static const int64_t MOST = INT64_C(1000000000000000000);

static int64_t divide(wide n, int64_t by)
{
	wide q = (n + (n < 0 ? -(by / 2) : by / 2)) / by;

	return (int64_t)(q > MOST ? MOST : q < -MOST ? -MOST : q);
}

int64_t money_times(int64_t quantity_milli, int64_t each_minor)
{
	return divide((wide)quantity_milli * each_minor, 1000);
}

int64_t money_share(int64_t minor, int64_t ppm)
{
	return divide((wide)minor * ppm, 1000000);
}

int64_t money_whole(int64_t minor)
{
	return divide(minor, MONEY_WHOLE) * MONEY_WHOLE;
}
