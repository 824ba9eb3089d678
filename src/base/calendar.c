/* calendar.c - see calendar.h. Years are counted from March, so that the leap day is a year's last:
 * a month from March on then begins (153 m + 2) / 5 days into it. */
#include "slabwright/calendar.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

enum { TO_1970 = 719468 }; /* days from 0000-03-01 to 1970-01-01 */
enum { ERA_DAYS = 146097 }; /* in 400 years */

int64_t calendar_day(const char *date)
{
	int64_t year = atoi(date), month = atoi(date + 5), day = atoi(date + 8);
	int64_t from_march = (month + 9) % 12;

	year -= month < 3;
	return year * 365 + year / 4 - year / 100 + year / 400 + (153 * from_march + 2) / 5 + day -
	       1 - TO_1970;
}

char *calendar_print(char *buf, size_t size, int64_t day)
{
	int64_t from = day + TO_1970, era = from / ERA_DAYS, in_era = from % ERA_DAYS;
	int64_t year = (in_era - in_era / 1460 + in_era / 36524 - in_era / 146096) / 365;
	int64_t in_year = in_era - (year * 365 + year / 4 - year / 100);
	int64_t from_march = (5 * in_year + 2) / 153;
	int64_t month = from_march < 10 ? from_march + 3 : from_march - 9;

	snprintf(buf, size, "%04" PRId64 "-%02" PRId64 "-%02" PRId64,
	        era * 400 + year + (month < 3), month, in_year - (153 * from_march + 2) / 5 + 1);
	return buf;
}

int calendar_weekday(int64_t day)
{
	return (int)(((day + 3) % 7 + 7) % 7); /* 1970-01-01 was a Thursday */
}

const char *calendar_weekday_name(int64_t day)
{
	static const char *const names[] = { "Monday", "Tuesday", "Wednesday", "Thursday", "Friday",
		"Saturday", "Sunday" };

	return names[calendar_weekday(day)];
}
