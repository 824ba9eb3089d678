/* Reading and printing of lengths, falls, angles and fractions. */
#include "slabwright/units.h"
#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct {
	const char *text;
	enum unit usual;
	int64_t um;
} lengths[] = {
	{ "3,62", UNIT_M, 3620000 },
	{ "3.62 m", UNIT_MM, 3620000 },
	{ "362cm", UNIT_M, 3620000 },
	{ "3620 mm", UNIT_M, 3620000 },
	{ " 3620\t", UNIT_MM, 3620000 },
	{ "-0,05", UNIT_M, -50000 },
	{ "+1", UNIT_CM, 10000 },
	{ ".5", UNIT_M, 500000 },
	{ "0.0000005", UNIT_M, 1 },
	{ "0.0000004", UNIT_M, 0 },
	{ "0.1", UNIT_MM, 100 },
	{ "12'", UNIT_M, 3657600 },
	{ "12' 6 3/8\"", UNIT_M, 3819525 },
	{ "12'6 3/8\"", UNIT_M, 3819525 },
	{ "12 ft 6 3/8 in", UNIT_M, 3819525 },
	{ "6 3/8\"", UNIT_M, 161925 },
	{ "3/8\"", UNIT_M, 9525 },
	{ "1/64\"", UNIT_M, 397 },
	{ "12' 3/8\"", UNIT_M, 3667125 },
	{ "-12' 6\"", UNIT_M, -3810000 },
	{ "12.5", UNIT_FT_IN, 3810000 },
	{ "12.5'", UNIT_M, 3810000 },
	{ "4.5 in", UNIT_M, 114300 },
	{ "12\u2032 6\u2033", UNIT_M, 3810000 },
	{ "10000", UNIT_M, INT64_C(10000000000) },
	{ "-10000", UNIT_M, INT64_C(-10000000000) },
};

START_TEST(a_length_is_read_to_the_micrometre)
{
	int64_t um = 77;
	struct error err = { 0 };

	ck_assert_msg(length_parse(lengths[_i].text, lengths[_i].usual, &um, &err) == STATUS_OK,
	        "%s: %s", lengths[_i].text, err.text);
	ck_assert_msg(um == lengths[_i].um, "%s: %lld", lengths[_i].text, (long long)um);
}
END_TEST

static const struct {
	const char *text, *reason;
} no_lengths[] = {
	{ "", "a number is missing" },
	{ "   ", "a number is missing" },
	{ "-", "a number is missing" },
	{ "abc", "a number is expected" },
	{ "--3", "a number is expected" },
	{ "3.62.1", "more than one decimal sign" },
	{ "1.234,5", "more than one decimal sign" },
	{ "1,2,3", "more than one decimal sign" },
	{ "3.", "digits are missing" },
	{ ".", "digits are missing" },
	{ "3 miles", "not a unit" },
	{ "3 m 4", "not a unit" },
	{ "3 mx", "not a unit" },
	{ "1e3", "not a unit" },
	{ "0x10", "not a unit" },
	{ "inf", "a number is expected" },
	{ "nan", "a number is expected" },
	{ "99999999999999999999", "too large" },
	{ "10000.001", "beyond 10 km" },
	{ "-10000.001", "beyond 10 km" },
	{ "0.1234567891", "more than 9 decimals" },
	{ "12' 12\"", "under 12" },
	{ "12.5' 3\"", "take no inches" },
	{ "12' 6", "mark after the inches" },
	{ "12' 6' 3\"", "mark after the inches" },
	{ "6 9/8\"", "upper number" },
	{ "6 3/0\"", "upper number" },
	{ "6 3/\"", "a number is expected" },
	{ "6\" 3\"", "not a unit" },
};

START_TEST(what_is_no_length_is_refused_with_the_reason)
{
	int64_t um = 77;
	struct error err = { 0 };

	ck_assert_int_eq(length_parse(no_lengths[_i].text, UNIT_M, &um, &err), STATUS_USAGE);
	ck_assert_int_eq(um, 77);
	ck_assert_msg(strstr(err.text, no_lengths[_i].reason) != NULL, "%s: %s",
	        no_lengths[_i].text, err.text);
	ck_assert_msg(strstr(err.text, no_lengths[_i].text) != NULL, "%s", err.text);
	ck_assert_msg(strstr(err.text, "3.62 m") != NULL, "%s", err.text);
}
END_TEST

START_TEST(a_refusal_shortens_what_was_typed)
{
	char typed[400];
	struct error err = { 0 };
	int64_t um;

	memset(typed, 'z', sizeof typed);
	typed[sizeof typed - 1] = '\0';
	ck_assert_int_eq(length_parse(typed, UNIT_M, &um, &err), STATUS_USAGE);
	ck_assert_ptr_nonnull(strstr(err.text, "zzz...\""));
	ck_assert_uint_lt(strlen(err.text), 300);
	ck_assert_int_eq(length_parse("nothing to say why to", UNIT_M, &um, NULL), STATUS_USAGE);
}
END_TEST

static const struct {
	int64_t um;
	enum unit unit;
	const char *text;
} printed[] = {
	{ 3620000, UNIT_M, "3.620 m" },
	{ 3620500, UNIT_M, "3.6205 m" },
	{ 1, UNIT_M, "0.000001 m" },
	{ 0, UNIT_M, "0.000 m" },
	{ -50000, UNIT_M, "-0.050 m" },
	{ 3620000, UNIT_CM, "362.0 cm" },
	{ 3620500, UNIT_CM, "362.1 cm" },
	{ -400, UNIT_CM, "0.0 cm" },
	{ 3620000, UNIT_MM, "3620 mm" },
	{ 4150500, UNIT_MM, "4150.5 mm" },
	{ -1, UNIT_MM, "-0.001 mm" },
	{ 3619897, UNIT_FT_IN, "11' 10 33/64\"" },
	{ 3657600, UNIT_FT_IN, "12'" },
	{ 3667125, UNIT_FT_IN, "12' 0 3/8\"" },
	{ 161925, UNIT_FT_IN, "6 3/8\"" },
	{ 9525, UNIT_FT_IN, "3/8\"" },
	{ 25400, UNIT_FT_IN, "1\"" },
	{ 0, UNIT_FT_IN, "0\"" },
	{ 304799, UNIT_FT_IN, "1'" },
	{ -3819525, UNIT_FT_IN, "-12' 6 3/8\"" },
	{ -100, UNIT_FT_IN, "0\"" },
};

START_TEST(a_length_is_printed_with_its_unit)
{
	char buf[80];

	ck_assert_str_eq(
	        length_print(buf, sizeof buf, printed[_i].um, printed[_i].unit), printed[_i].text);
}
END_TEST

START_TEST(what_is_printed_reads_back)
{
	static const enum unit units[] = { UNIT_M, UNIT_MM, UNIT_FT_IN };
	uint64_t seed = 12345;
	char buf[80];

	for (int i = 0; i < 20000; i++) {
		enum unit unit = units[i % 3];
		int64_t um, back;

		seed = seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
		um = (int64_t)(seed >> 32) * (i % 2 ? 1 : -1);
		length_print_bare(buf, sizeof buf, um, unit);
		ck_assert_msg(length_parse(buf, unit, &back, NULL) == STATUS_OK, "%s", buf);
		ck_assert_msg(llabs(um - back) <= (unit == UNIT_FT_IN ? 199 : 0), "%lld prints %s",
		        (long long)um, buf);
	}
}
END_TEST

START_TEST(a_sixty_fourth_of_an_inch_survives_printing_and_reading)
{
	for (int64_t n = 1; n <= 64 * 24; n++) {
		char typed[40], shown[80];
		int64_t um, again;

		snprintf(typed, sizeof typed, "%d %d/64\"", (int)(n / 64), (int)(n % 64));
		ck_assert_int_eq(length_parse(typed, UNIT_M, &um, NULL), STATUS_OK);
		length_print(shown, sizeof shown, um, UNIT_FT_IN);
		ck_assert_int_eq(length_parse(shown, UNIT_M, &again, NULL), STATUS_OK);
		ck_assert_int_eq(um, again);
	}
}
END_TEST

START_TEST(printing_stays_in_its_buffer)
{
	char buf[12] = "###########";

	length_print(buf, 5, INT64_C(-1234567890), UNIT_M);
	ck_assert_str_eq(buf, "-123");
	ck_assert_int_eq(buf[5], '#');
	fall_print(buf, 5, 16667);
	ck_assert_str_eq(buf, "16.7");
	mm_print(buf, 3, INT64_MIN);
	ck_assert_str_eq(buf, "-9");
}
END_TEST

static const struct {
	const char *text;
	int64_t um_per_m;
	const char *shown;
} falls[] = {
	{ "15", 15000, "15 mm/m (1.5 %, 1:67)" },
	{ "15 mm/m", 15000, "15 mm/m (1.5 %, 1:67)" },
	{ "1,5 %", 15000, "15 mm/m (1.5 %, 1:67)" },
	{ "1:60", 16667, "16.7 mm/m (1.67 %, 1:60)" },
	{ "1 : 60", 16667, "16.7 mm/m (1.67 %, 1:60)" },
	{ "2:100", 20000, "20 mm/m (2 %, 1:50)" },
	{ "1:2.5", 400000, "400 mm/m (40 %, 1:2.5)" },
	{ "1/4 in/ft", 20833, "20.8 mm/m (2.08 %, 1:48)" },
	{ "0", 0, "0 mm/m (level)" },
	{ "0.05 %", 500, "0.5 mm/m (0.05 %, 1:2000)" },
	{ "1:1", 1000000, "1000 mm/m (100 %, 1:1)" },
};

START_TEST(a_fall_is_read_in_every_form_and_shown_in_all)
{
	char buf[80];
	int64_t fall = 0;
	struct error err = { 0 };

	ck_assert_msg(fall_parse(falls[_i].text, &fall, &err) == STATUS_OK, "%s", err.text);
	ck_assert_int_eq(fall, falls[_i].um_per_m);
	ck_assert_str_eq(fall_print(buf, sizeof buf, fall), falls[_i].shown);
}
END_TEST

static const char *const no_falls[] = { "", "-1", "1:", "1:0", ":60", "1:0.5", "1.5:60", "5 mm",
	"2001", "101 %", "1:60 x", "1,2,3 %", "1::60", "1:99999999999" };

START_TEST(what_is_no_fall_is_refused)
{
	int64_t fall = 77;
	struct error err = { 0 };

	ck_assert_int_eq(fall_parse(no_falls[_i], &fall, &err), STATUS_USAGE);
	ck_assert_int_eq(fall, 77);
	ck_assert_ptr_nonnull(strstr(err.text, "15 mm/m, 1.5 % or 1:60"));
}
END_TEST

START_TEST(an_angle_is_read_and_printed_exactly)
{
	int64_t udeg;
	char buf[40];

	ck_assert_int_eq(angle_parse("22,5", &udeg, NULL), STATUS_OK);
	ck_assert_int_eq(udeg, 22500000);
	ck_assert_str_eq(angle_print(buf, sizeof buf, udeg), "22.5");
	ck_assert_int_eq(angle_parse("-0.000001\u00B0", &udeg, NULL), STATUS_OK);
	ck_assert_str_eq(angle_print(buf, sizeof buf, udeg), "-0.000001");
	ck_assert_int_eq(angle_parse("45 deg", &udeg, NULL), STATUS_OK);
	ck_assert_int_eq(udeg, 45000000);
	ck_assert_int_eq(angle_parse("360.1", &udeg, NULL), STATUS_USAGE);
	ck_assert_int_eq(angle_parse("45 m", &udeg, NULL), STATUS_USAGE);
	ck_assert_int_eq(angle_parse("north", &udeg, NULL), STATUS_USAGE);
}
END_TEST

START_TEST(a_fraction_is_read_and_printed_as_the_trade_says_it)
{
	static const struct {
		const char *text;
		double value;
		const char *shown;
	} good[] = {
		{ "1/3", 1.0 / 3, "1/3" },
		{ "0,25", 0.25, "1/4" },
		{ "0.5", 0.5, "1/2" },
		{ "0", 0, "0" },
		{ "2/3", 2.0 / 3, "2/3" },
		{ "0.37", 0.37, "0.37" },
	};
	static const char *const bad[] = { "1", "1.0001", "2/2", "3/2", "-0.5", "1/0", "", "half",
		"0.5 x", "1 1/2" };
	char buf[40];
	double f;

	for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
		ck_assert_int_eq(fraction_parse(good[i].text, &f, NULL), STATUS_OK);
		ck_assert_double_eq(f, good[i].value);
		ck_assert_str_eq(fraction_print(buf, sizeof buf, f), good[i].shown);
	}
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		ck_assert_msg(fraction_parse(bad[i], &f, NULL) == STATUS_USAGE, "%s", bad[i]);
}
END_TEST

#define LOOP(tc, test, table)                                                                      \
	tcase_add_loop_test(tc, test, 0, (int)(sizeof(table) / sizeof *(table)))

int main(void)
{
	TCase *tc = tcase_create("units");

	LOOP(tc, a_length_is_read_to_the_micrometre, lengths);
	LOOP(tc, what_is_no_length_is_refused_with_the_reason, no_lengths);
	LOOP(tc, a_length_is_printed_with_its_unit, printed);
	LOOP(tc, a_fall_is_read_in_every_form_and_shown_in_all, falls);
	LOOP(tc, what_is_no_fall_is_refused, no_falls);
	tcase_add_test(tc, a_refusal_shortens_what_was_typed);
	tcase_add_test(tc, what_is_printed_reads_back);
	tcase_add_test(tc, a_sixty_fourth_of_an_inch_survives_printing_and_reading);
	tcase_add_test(tc, printing_stays_in_its_buffer);
	tcase_add_test(tc, an_angle_is_read_and_printed_exactly);
	tcase_add_test(tc, a_fraction_is_read_and_printed_as_the_trade_says_it);
	return suite_run("units", tc);
}
