/* calendar.h - days of the Gregorian calendar, counted from 1970-01-01 as day 0. */
#ifndef SLABWRIGHT_CALENDAR_H
#define SLABWRIGHT_CALENDAR_H

#include <stddef.h>
#include <stdint.h>

/* The day of a date that date_valid (plan_cost.h) takes, "2026-11-25". */
int64_t calendar_day(const char *date);
/* "2026-11-25"; of day 0 to the end of the year 9999. Returns buf; 11 bytes are enough. */
char *calendar_print(char *buf, size_t size, int64_t day);
#define CALENDAR_LAST_DAY 2932896 /* 9999-12-31 */
/* 0 Monday to 6 Sunday. */
int calendar_weekday(int64_t day);
const char *calendar_weekday_name(int64_t day); /* "Monday" */

#endif
