/* test_screen_parts.c - the table of keys, and text made fit for the screen. */
#include "../../src/planner/actions.h"
#include "suite.h"

#include <check.h>
#include <locale.h>
#include <stdlib.h>
#include <string.h>

START_TEST(no_key_is_used_twice_at_a_place)
{
	for (int place = 0; place < PLACES; place++) {
		for (size_t i = 0; i < action_count; i++) {
			for (int k = 0; k < ACTION_KEYS && actions[i].keys[k]; k++) {
				if (!(actions[i].where & ON(place)))
					continue;
				ck_assert_msg(action_find((enum place)place, actions[i].keys[k]) ==
				                      &actions[i],
				        "key %d (%s) does two things at %s", actions[i].keys[k],
				        actions[i].key_words, place_name((enum place)place));
			}
		}
	}
}
END_TEST

START_TEST(every_row_of_the_table_can_be_reached_and_is_explained)
{
	for (size_t i = 0; i < action_count; i++) {
		ck_assert(actions[i].where != 0 && actions[i].keys[0] != 0);
		ck_assert(actions[i].run != NULL);
		ck_assert_uint_gt(strlen(actions[i].help), 10);
		ck_assert_uint_le(strlen(actions[i].key_words), 13);
	}
	for (int place = 0; place < PLACES; place++)
		ck_assert_msg(action_find((enum place)place, KEY_OF_ESCAPE) != NULL ||
		                      place == AT_VARIANTS,
		        "no way to let go at %s", place_name((enum place)place));
}
END_TEST

static struct cells cells;

/* Puts text and gives the area's first row as characters, `#` for the right half of a wide one. */
static const wchar_t *put(const char *text, int width, bool ascii)
{
	static wchar_t row[81];
	struct area all;

	ck_assert(cells_resize(&cells, 1, 20));
	cells.ascii = ascii;
	all = cells_all(&cells);
	area_text(&all, 0, 0, width, STYLE_PLAIN, text);
	for (int i = 0; i < 20; i++)
		row[i] = cells.at[i].ch[0] ? cells.at[i].ch[0] : L'#';
	row[20] = 0;
	return row;
}

static void check_row(const wchar_t *got, const wchar_t *want)
{
	wchar_t whole[21];

	for (size_t i = 0; i < 20; i++)
		whole[i] = i < wcslen(want) ? want[i] : L' ';
	whole[20] = 0;
	ck_assert_msg(wcscmp(got, whole) == 0, "'%ls' is not '%ls'", got, whole);
}

START_TEST(control_characters_show_as_marks)
{
	check_row(put("a\x1b[31mb\tc", 20, false), L"a\u241b[31mb\u2409c");
	check_row(put("a\x1b[31mb\tc", 20, true), L"a?[31mb?c");
	check_row(put("x\x7fy\xc2\x9bz", 20, false), L"x\u2421y\ufffdz");
	check_row(put("a\xe2\x80\xae"
	              "b",
	                  20, false),
	        L"a\ufffd"
	        L"b"); /* turns the writing direction */
}
END_TEST

START_TEST(broken_utf8_shows_as_marks_and_ends)
{
	check_row(put("a\xc3", 20, false), L"a\ufffd");
	check_row(put("\xff\xfe"
	              "b",
	                  20, false),
	        L"\ufffd\ufffd"
	        L"b");
	check_row(put("\xc0\x80", 20, false), L"\ufffd\ufffd"); /* an overlong NUL */
	check_row(
	        put("\xed\xa0\x80", 20, false), L"\ufffd\ufffd\ufffd"); /* half a surrogate pair */
	check_row(put("\xe2\x82", 20, true), L"??");
}
END_TEST

START_TEST(wide_and_combining_characters_keep_columns_straight)
{
	check_row(put("\xe6\xbc\xa2!", 20, false), L"\u6f22#!");
	ck_assert_int_eq(text_columns("\xe6\xbc\xa2!", false), 3);
	check_row(put("e\xcc\x81x", 20, false), L"ex");
	ck_assert_int_eq(cells.at[0].ch[1], 0x301);
	ck_assert_int_eq(text_columns("e\xcc\x81x", false), 2);
	check_row(put("\xe6\xbc\xa2"
	              "ab",
	                  3, false),
	        L"\u6f22#\u2026"); /* does not fit: ends with a mark */
	check_row(put("a\xe6\xbc\xa2"
	              "b",
	                  3, false),
	        L"a\u2026"); /* half of a wide one is never put */
}
END_TEST

START_TEST(longer_text_ends_with_a_mark)
{
	check_row(put("courtyard", 5, false), L"cour\u2026");
	check_row(put("courtyard", 5, true), L"cour~");
	check_row(put("court", 5, true), L"court");
}
END_TEST

START_TEST(text_wraps_at_blanks_and_breaks_long_words)
{
	const char *text = "one two threefourfive", *next;

	ck_assert_uint_eq(text_wrap(text, 8, false, &next), 7);
	ck_assert_str_eq(next, "threefourfive");
	text = next;
	ck_assert_uint_eq(text_wrap(text, 8, false, &next), 8);
	ck_assert_str_eq(next, "rfive");
	ck_assert_uint_eq(text_wrap("a\nb", 8, false, &next), 1);
	ck_assert_str_eq(next, "b");
}
END_TEST

START_TEST(what_falls_outside_an_area_is_left_out)
{
	struct area all, part;

	ck_assert(cells_resize(&cells, 2, 10));
	all = cells_all(&cells);
	part = area_part(&all, 1, 2, 5, 3);
	area_fill(&part, L'x', STYLE_PLAIN);
	area_text(&part, 0, 1, 10, STYLE_PLAIN, "abcdef");
	area_put(&part, -1, 0, L'y', STYLE_PLAIN);
	for (int i = 0; i < 20; i++)
		ck_assert_int_eq(cells.at[i].ch[0], (L"            xab     ")[i]);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("parts");

	setlocale(LC_ALL, "C.UTF-8");
	tcase_add_test(tc, no_key_is_used_twice_at_a_place);
	tcase_add_test(tc, every_row_of_the_table_can_be_reached_and_is_explained);
	tcase_add_test(tc, control_characters_show_as_marks);
	tcase_add_test(tc, broken_utf8_shows_as_marks_and_ends);
	tcase_add_test(tc, wide_and_combining_characters_keep_columns_straight);
	tcase_add_test(tc, longer_text_ends_with_a_mark);
	tcase_add_test(tc, text_wraps_at_blanks_and_breaks_long_words);
	tcase_add_test(tc, what_falls_outside_an_area_is_left_out);
	return suite_run("screen parts", tc);
}
