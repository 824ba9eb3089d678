/* Sheets in files: to scale, on the paper's size, the same bytes each time. PDF is read back with
 * pdftotext and pdfinfo. */
#include "drawn.h"
#include "plans.h"
#include "program.h"
#include "sheets.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct worked w;

static void setup(void)
{
	program_folder();
}

static void teardown(void)
{
	worked_done(&w);
	program_folder_remove();
}

static void assert_says(const char *text, const char *words)
{
	ck_assert_msg(strstr(text, words) != NULL, "\"%s\" is not in:\n%s", words, text);
}

START_TEST(the_pdf_says_what_the_takeoff_says)
{
	struct drawing_options o = drawn_options();
	char path[300], words[200], *text;

	worked_patio(&w);
	snprintf(path, sizeof path, "%s", program_path("a.pdf"));
	drawn_write(path, &w.t, &o);
	text = drawn_said_by("pdftotext -layout '%s' -", path);
	for (size_t i = 0; i < w.t.surface.point_count; i++) {
		const struct level_point *p = &w.t.surface.points[i];

		snprintf(words, sizeof words, "%lld", llround(p->level_um / 1000));
		assert_says(text, words);
		ck_assert(p->has_staff);
		snprintf(words, sizeof words, "%lld", llround(p->staff_um / 1000));
		assert_says(text, words);
	}
	for (size_t i = 0; i < w.t.cuts.slabs; i++) {
		snprintf(words, sizeof words, "slab %zu", i + 1);
		assert_says(text, words);
		for (int k = 0; k < w.t.cuts.sources[i].count; k++) {
			size_t number = w.t.cuts.sources[i].place[k].piece;
			const struct piece *p = &w.t.laid.pieces[number];

			snprintf(words, sizeof words, "%zu: %lld x %lld", number + 1,
			        llround((p->box.x1 - p->box.x0) / 1000),
			        llround((p->box.y1 - p->box.y0) / 1000));
			assert_says(text, words);
		}
	}
	snprintf(words, sizeof words, "Needed: %lld laid whole and %zu for %lld cut pieces",
	        (long long)w.t.laid.whole, w.t.cuts.slabs, (long long)w.t.laid.cut);
	assert_says(text, words);
	snprintf(words, sizeof words, "%lld", (long long)w.t.order.slabs);
	assert_says(strstr(text, "Test flag"), words);
	assert_says(text, "one batch");
	assert_says(text, "house wall");
	assert_says(text, "Measures taken on site come before this drawing");
	assert_says(text, "page 1 of ");
	free(text);
}
END_TEST

/* ISO 216: A4 is 210 x 297 mm, A3 297 x 420 mm; Letter is 8.5 x 11 in, in points of 1/72 in. */
START_TEST(pages_have_the_papers_size)
{
	static const char *const sizes[] = { "841.89 x 595.276 pts", "1190.55 x 841.89 pts",
		"792 x 612 pts" };

	worked_patio(&w);
	for (int i = 0; i < 3; i++) {
		struct drawing_options o = drawn_options();
		char *text;

		o.paper = (enum paper)i;
		drawn_write(program_path("a.pdf"), &w.t, &o);
		text = drawn_said_by("pdfinfo '%s'", program_path("a.pdf"));
		assert_says(text, sizes[i]);
		assert_says(text, "2024");
		free(text);
	}
}
END_TEST

/* Tags close in the order they were opened. */
static void check_well_formed(const char *svg)
{
	char open[64][32];
	int depth = 0;

	for (const char *at = strchr(svg, '<'); at; at = strchr(at + 1, '<')) {
		const char *end = strchr(at, '>');
		char name[32];

		ck_assert_ptr_nonnull(end);
		if (at[1] == '?' || at[1] == '!')
			continue;
		ck_assert_int_eq(sscanf(at + (at[1] == '/' ? 2 : 1), "%31[a-zA-Z0-9:]", name), 1);
		if (at[1] == '/') {
			ck_assert_int_gt(depth, 0);
			ck_assert_str_eq(name, open[--depth]);
		} else if (end[-1] != '/') {
			ck_assert_int_lt(depth, 64);
			strcpy(open[depth++], name);
		}
	}
	ck_assert_int_eq(depth, 0);
}

/* 5 m at 1:50 is 100 mm, and at 1:100 50 mm; the SVG's unit is the mm. */
START_TEST(a_known_edge_has_its_length_on_paper)
{
	static const double on_paper[] = { 100, 50 };

	worked_rectangle(&w, 5 * UM_PER_M, 4 * UM_PER_M);
	work_out_plan(&w);
	for (int i = 0; i < 2; i++) {
		struct drawing_options o = drawn_options();
		size_t length;
		char *svg;

		o.form = DRAWING_SVG;
		o.only = "plan";
		o.scale = i ? 100 : 50;
		drawn_write(program_path("a.svg"), &w.t, &o);
		svg = drawn_read(program_path("a.svg"), &length);
		assert_says(svg, "width=\"297mm\" height=\"210mm\" viewBox=\"0 0 297 210\"");
		ck_assert(svg_has_level_line(svg, on_paper[i]));
		ck_assert(!svg_has_level_line(svg, on_paper[!i]));
		check_well_formed(svg);
		free(svg);
	}
}
END_TEST

/* Big-endian, as PNG (ISO/IEC 15948) has width and height at bytes 16 and 20. */
static unsigned png_number(const char *png, size_t at)
{
	const unsigned char *p = (const unsigned char *)png + at;

	return (unsigned)p[0] << 24 | (unsigned)p[1] << 16 | (unsigned)p[2] << 8 | p[3];
}

START_TEST(each_page_of_a_png_is_a_file)
{
	struct drawing_options o = drawn_options();
	size_t pages, length;
	char *png;

	worked_patio(&w);
	o.form = DRAWING_PNG;
	ck_assert_int_eq(drawing_write(program_path("a.png"), &w.t, &o, &pages, NULL), STATUS_OK);
	for (size_t i = 1; i <= pages; i++) {
		char name[32];

		snprintf(name, sizeof name, i == 1 ? "a.png" : "a-%zu.png", i);
		png = drawn_read(program_path(name), &length);
		ck_assert_mem_eq(png, "\x89PNG\r\n\x1a\n", 8);
		ck_assert_uint_eq(png_number(png, 16), 1754); /* 297 mm at 150 to the inch */
		ck_assert_uint_eq(png_number(png, 20), 1240);
		free(png);
	}
}
END_TEST

START_TEST(the_same_input_gives_the_same_bytes)
{
	static const char *const names[] = { "a.pdf", "a.png" };
	static const enum drawing_form forms[] = { DRAWING_PDF, DRAWING_PNG };

	worked_patio(&w);
	for (int i = 0; i < 2; i++) {
		struct drawing_options o = drawn_options();
		size_t n[3];
		char *text[3];

		o.form = forms[i];
		for (int k = 0; k < 3; k++) {
			o.date = k == 2 ? "2024-06-01" : "2024-05-31";
			drawn_write(program_path(names[i]), &w.t, &o);
			text[k] = drawn_read(program_path(names[i]), &n[k]);
		}
		ck_assert_uint_eq(n[0], n[1]);
		ck_assert_mem_eq(text[0], text[1], n[0]);
		ck_assert(n[0] != n[2] || memcmp(text[0], text[2], n[0]) != 0);
		for (int k = 0; k < 3; k++)
			free(text[k]);
	}
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("drawing files");

	tcase_set_timeout(tc, 120);
	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_add_test(tc, the_pdf_says_what_the_takeoff_says);
	tcase_add_test(tc, pages_have_the_papers_size);
	tcase_add_test(tc, a_known_edge_has_its_length_on_paper);
	tcase_add_test(tc, each_page_of_a_png_is_a_file);
	tcase_add_test(tc, the_same_input_gives_the_same_bytes);
	return suite_run("drawing files", tc);
}
