/* The command sheet, as a shell runs it. */
#include "program.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static struct output o;

static void setup(void)
{
	program_folder();
	program_import_yard(&o);
}

static void teardown(void)
{
	program_folder_remove();
}

static void assert_begins(const char *name, const char *bytes)
{
	char read[16] = "";
	FILE *from = fopen(program_path(name), "rb");

	ck_assert_msg(from != NULL, "no %s", name);
	ck_assert_uint_eq(fread(read, 1, strlen(bytes), from), strlen(bytes));
	ck_assert_mem_eq(read, bytes, strlen(bytes));
	fclose(from);
}

START_TEST(all_sheets_are_pages_of_a_pdf)
{
	RUN(&o, "sheet", "Ann/Yard/A", "--to", program_path("yard.pdf"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "yard.pdf, "));
	ck_assert_ptr_nonnull(strstr(o.out, " pages.\n"));
	program_done(&o);
	assert_begins("yard.pdf", "%PDF-");
}
END_TEST

START_TEST(one_sheet_on_the_paper_and_scale_asked_for)
{
	RUN(&o, "sheet", "Ann/Yard/A", "--to", program_path("p.svg"), "--only", "plan", "--paper",
	        "A3", "--scale", "1:25", "--date", "2024-05-31");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "p.svg, 1 page.\n"));
	program_done(&o);
	assert_begins("p.svg", "<?xml");
	ck_assert_int_ne(access(program_path("p-2.svg"), F_OK), 0);
}
END_TEST

static char *whole(const char *name, size_t *length)
{
	static char text[2][4 << 20];
	static int next;
	char *to = text[next++ % 2];
	FILE *from = fopen(program_path(name), "rb");

	ck_assert_ptr_nonnull(from);
	*length = fread(to, 1, sizeof text[0], from);
	ck_assert_uint_lt(*length, sizeof text[0]);
	fclose(from);
	return to;
}

/* An SVG's names of parts count on within a run, so this takes two. */
START_TEST(the_same_command_gives_the_same_bytes)
{
	static const char *const names[] = { "a.svg", "a-2.svg", "a-5.svg" };
	size_t n[3], m;
	char *first[3], *second;

	for (int i = 0; i < 3; i++) {
		for (int k = 0; k < 2; k++) {
			RUN(&o, "sheet", "Ann/Yard/A", "--to", program_path("a.svg"), "--date",
			        "2024-05-31");
			ck_assert_msg(o.status == 0, "%s", o.err);
			program_done(&o);
			if (k == 0)
				first[i] = whole(names[i], &n[i]);
		}
		second = whole(names[i], &m);
		ck_assert_uint_eq(n[i], m);
		ck_assert_mem_eq(first[i], second, m);
	}
}
END_TEST

START_TEST(pages_of_a_png_are_numbered_from_2)
{
	RUN(&o, "sheet", "Ann/Yard/A", "--to", program_path("p.png"));
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "numbered from 2"));
	program_done(&o);
	assert_begins("p.png", "\x89PNG");
	assert_begins("p-5.png", "\x89PNG");
}
END_TEST

START_TEST(pages_left_of_a_longer_drawing_are_told)
{
	RUN(&o, "sheet", "Ann/Yard/A", "--to", program_path("p.png"));
	ck_assert_ptr_null(strstr(o.out, "earlier"));
	program_done(&o);
	RUN(&o, "sheet", "Ann/Yard/A", "--to", program_path("p.png"), "--only", "plan");
	ck_assert_msg(o.status == 0, "%s", o.err);
	ck_assert_ptr_nonnull(strstr(o.out, "Page files 2 to "));
	ck_assert_ptr_nonnull(strstr(o.out, "remove them"));
	program_done(&o);
	assert_begins("p-2.png", "\x89PNG");
}
END_TEST

static const struct {
	const char *option, *value, *said;
} wrong[] = {
	{ "--only", "roof", "There is no sheet \"roof\"; there are plan, setout, dig" },
	{ "--paper", "B5", "A4, A3 or Letter" },
	{ "--scale", "fifty", "write it like 1:50" },
	{ "--scale", "1:5", "larger paper" },
	{ "--date", "31.5.2024", "year-month-day" },
	{ "--to", "yard.doc", ".pdf, .svg or .png" },
	{ "--to", "", "sheet needs --to FILE" },
};

START_TEST(wrong_values_are_refused_and_nothing_is_written)
{
	RUN(&o, "sheet", "Ann/Yard/A", "--to", program_path("x.pdf"), wrong[_i].option,
	        wrong[_i].value);
	assert_refused(&o, 2, wrong[_i].said);
	ck_assert_int_ne(access(program_path("x.pdf"), F_OK), 0);
}
END_TEST

START_TEST(what_the_command_needs_is_told)
{
	RUN(&o, "sheet", "Ann/Yard/A");
	assert_refused(&o, 2, "sheet needs --to FILE");
	RUN(&o, "sheet", "Ann/Yard/Z", "--to", program_path("x.pdf"));
	assert_refused(&o, 1, "Z");
	RUN(&o, "sheet", "Ann/Yard/A", "--to", program_path("x.pdf"), "--only", "steps");
	assert_refused(&o, 1, "nothing for the sheet \"steps\"");
	RUN(&o, "sheet", "Ann/Yard/A", "--to", program_path("none/x.pdf"));
	assert_refused(&o, 1, "none/x.pdf cannot be written: No such file or directory");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("command sheet");

	tcase_set_timeout(tc, 120);
	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, all_sheets_are_pages_of_a_pdf);
	tcase_add_test(tc, one_sheet_on_the_paper_and_scale_asked_for);
	tcase_add_test(tc, the_same_command_gives_the_same_bytes);
	tcase_add_test(tc, pages_of_a_png_are_numbered_from_2);
	tcase_add_test(tc, pages_left_of_a_longer_drawing_are_told);
	tcase_add_loop_test(tc, wrong_values_are_refused_and_nothing_is_written, 0,
	        sizeof wrong / sizeof *wrong);
	tcase_add_test(tc, what_the_command_needs_is_told);
	return suite_run("command sheet", tc);
}
