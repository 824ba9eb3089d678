/* Days of the calendar, held to the C library's. */
#include "slabwright/calendar.h"

#include "slabwright/plan_cost.h"
#include "suite.h"

#include <string.h>
#include <time.h>

START_TEST(every_day_of_500_years_is_that_of_the_c_library)
{
	for (int64_t day = 0; day < 500 * 365; day++) {
		time_t seconds = (time_t)day * 86400;
		char theirs[16], ours[16];
		struct tm tm;

		ck_assert_ptr_nonnull(gmtime_r(&seconds, &tm));
		strftime(theirs, sizeof theirs, "%Y-%m-%d", &tm);
		ck_assert_str_eq(calendar_print(ours, sizeof ours, day), theirs);
		ck_assert_int_eq(calendar_day(ours), day);
		ck_assert_int_eq(calendar_weekday(day), (tm.tm_wday + 6) % 7);
		ck_assert(date_valid(ours));
	}
}
END_TEST

START_TEST(the_last_day_is_the_end_of_9999)
{
	char date[16];

	ck_assert_str_eq(calendar_print(date, sizeof date, CALENDAR_LAST_DAY), "9999-12-31");
	ck_assert_int_eq(calendar_day("9999-12-31"), CALENDAR_LAST_DAY);
	ck_assert_str_eq(calendar_weekday_name(calendar_day("2026-12-01")), "Tuesday");
	ck_assert(calendar_day("0001-01-01") < 0);
	ck_assert_str_eq(
	        calendar_print(date, sizeof date, calendar_day("0001-01-01")), "0001-01-01");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("calendar");

	tcase_set_timeout(tc, 60); /* slow under the sanitizers */
	tcase_add_test(tc, every_day_of_500_years_is_that_of_the_c_library);
	tcase_add_test(tc, the_last_day_is_the_end_of_9999);
	return suite_run("calendar", tc);
}
