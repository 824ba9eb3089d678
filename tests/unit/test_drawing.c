/* What stands on the sheets: nothing overlaps or is cut off, and everything is there. Boxes are
 * held to GEOS. */
#include "../../src/sheet/walk.h"
#include "drawn.h"
#include "plans.h"
#include "sheets.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { JOBS = 24 };

static struct arena mem;

static void teardown(void)
{
	arena_free(&mem);
}

/* --- what stands on the pages --- */

struct texts {
	struct drawn_text *items;
	size_t count, room;
	double width, height;
};

static void keep_text(void *context, const struct drawn_text *text)
{
	struct texts *t = context;

	t->items = arena_grow(&mem, t->items, t->count, &t->room, sizeof *t->items);
	ck_assert_ptr_nonnull(t->items);
	t->items[t->count] = *text;
	t->items[t->count++].words = arena_text(&mem, text->words);
}

static struct texts texts_of(const struct takeoff *t, const struct drawing_options *o)
{
	struct texts all = { 0 };
	struct error err = { 0 };

	ck_assert_msg(
	        drawing_texts(t, o, keep_text, &all, &all.width, &all.height, &err) == STATUS_OK,
	        "%s", err.text);
	return all;
}

static void corners_of(const struct drawn_text *t, struct point out[4])
{
	double c = cos(t->turn_rad), s = sin(t->turn_rad);

	for (int i = 0; i < 4; i++) {
		double u = i == 0 || i == 3 ? -t->half_width : t->half_width;
		double v = i < 2 ? -t->half_height : t->half_height;

		out[i] = (struct point){ t->x + u * c - v * s, t->y + u * s + v * c };
	}
}

static void check_within(const struct texts *all, const struct drawn_text *t, int job)
{
	static const double MARGIN_MM = 5;
	struct point p[4];

	corners_of(t, p);
	for (int i = 0; i < 4; i++)
		ck_assert_msg(p[i].x > MARGIN_MM && p[i].x < all->width - MARGIN_MM &&
		                      p[i].y > MARGIN_MM && p[i].y < all->height - MARGIN_MM,
		        "job %d page %zu: \"%s\" leaves the page", job, t->page, t->words);
}

/* Boxes share no more than a hair: GEOS says how much. */
static void check_apart(
        GEOSContextHandle_t g, const struct drawn_text *a, const struct drawn_text *b, int job)
{
	struct point p[4], q[4];
	GEOSGeometry *one, *other, *both;
	double area = 0;

	if (hypot(a->x - b->x, a->y - b->y) >
	        hypot(a->half_width, a->half_height) + hypot(b->half_width, b->half_height))
		return;
	corners_of(a, p);
	corners_of(b, q);
	one = geos_polygon(g, p, 4);
	other = geos_polygon(g, q, 4);
	both = GEOSIntersection_r(g, one, other);
	GEOSArea_r(g, both, &area);
	GEOSGeom_destroy_r(g, one);
	GEOSGeom_destroy_r(g, other);
	GEOSGeom_destroy_r(g, both);
	/* geos_polygon divides by 1000, so this is mm2 * 1e-6 */
	ck_assert_msg(area < 0.01e-6, "job %d page %zu: \"%s\" and \"%s\" overlap", job, a->page,
	        a->words, b->words);
}

static void check_pages(const struct texts *all, int job)
{
	GEOSContextHandle_t g = GEOS_init_r();

	for (size_t i = 0; i < all->count; i++) {
		check_within(all, &all->items[i], job);
		for (size_t k = i + 1; k < all->count && all->items[k].page == all->items[i].page;
		        k++)
			check_apart(g, &all->items[i], &all->items[k], job);
	}
	GEOS_finish_r(g);
}

/* Every bond, arcs, openings, borders, zones; tiny and big; every paper; names that are long and
 * odd. */
START_TEST(nothing_overlaps_or_leaves_the_page)
{
	struct chance c = chance_new(chance_seed("nothing_overlaps_or_leaves_the_page", 7));
	char name[201];

	memset(name, 'W', 200);
	name[200] = '\0';
	for (int job = 0; job < JOBS; job++) {
		struct takeoff t = drawn_job(&mem, &c, job);
		struct drawing_options o = drawn_options();
		struct texts all;

		o.paper = (enum paper)(job % 3);
		if (job % 4 == 1)
			o.client = o.job = t.plan.name = name;
		if (job % 4 == 2)
			o.job = "\x1b[31mG\xc3\xa4rten\n\t\xd0\xa1\xd0\xb0\xd0\xb4 "
			        "\xd7\x92\xd7\x9f \xff";
		if (job % ONE_OF)
			continue; /* the chance has moved on all the same */
		all = texts_of(&t, &o);
		ck_assert_uint_gt(all.count, 50);
		check_pages(&all, job);
		arena_reset(&mem);
	}
}
END_TEST

/* Whether the piece's number stands on its own, as on a drawing, or in the list of those that found
 * no place. */
static bool has_number(const struct texts *all, size_t number)
{
	char alone[32], sliver[32], listed[40];

	snprintf(alone, sizeof alone, "%zu", number);
	snprintf(sliver, sizeof sliver, "%zu!", number);
	snprintf(listed, sizeof listed, " %zu at slab", number);
	for (size_t i = 0; i < all->count; i++)
		if (strcmp(all->items[i].words, alone) == 0 ||
		        strcmp(all->items[i].words, sliver) == 0 ||
		        strstr(all->items[i].words, listed))
			return true;
	return false;
}

START_TEST(every_cut_piece_is_told_on_the_laying_plan)
{
	struct chance c = chance_new(chance_seed("every_cut_piece_is_told_on_the_laying_plan", 11));

	for (int job = 0; job < JOBS / 2 / ONE_OF; job++) {
		struct takeoff t = drawn_job(&mem, &c, job);
		struct drawing_options o = drawn_options();
		struct texts all;

		o.only = "laying";
		all = texts_of(&t, &o);
		for (size_t i = 0; i < t.laid.piece_count; i++)
			if (t.laid.pieces[i].kind != PIECE_MADE_UP)
				ck_assert_msg(
				        has_number(&all, i + 1), "job %d piece %zu", job, i + 1);
		arena_reset(&mem);
	}
}
END_TEST

static void count_slab(void *count, const struct section *section, struct slab_spot spot)
{
	(void)section;
	(void)spot;
	++*(int64_t *)count;
}

START_TEST(as_many_whole_slabs_are_drawn_as_counted)
{
	struct chance c = chance_new(chance_seed("as_many_whole_slabs_are_drawn_as_counted", 13));

	for (int job = 0; job < 60 / ONE_OF; job++) {
		struct takeoff t = drawn_job(&mem, &c, job);
		int64_t count = 0;

		whole_slabs(&t, count_slab, &count);
		ck_assert_int_eq(count, t.laid.whole);
		arena_reset(&mem);
	}
}
END_TEST

static bool page_says(const struct texts *all, const char *words)
{
	for (size_t i = 0; i < all->count; i++)
		if (strcmp(all->items[i].words, words) == 0)
			return true;
	return false;
}

START_TEST(what_cannot_be_shown_gets_a_mark)
{
	struct worked w;
	struct drawing_options o = drawn_options();
	struct texts all;

	worked_patio(&w);
	o.client = "A\x1b[31m\nB\xff";
	o.only = "order";
	all = texts_of(&w.t, &o);
	ck_assert(page_says(&all, "A\xEF\xBF\xBD[31m\xEF\xBF\xBD"
	                          "B\xEF\xBF\xBD"));
	worked_done(&w);
}
END_TEST

START_TEST(options_say_what_there_is)
{
	struct error err;
	enum paper paper;
	enum drawing_form form;
	int64_t scale;
	static const char *const dates[] = { "", "2024", "2024-02-30", "2023-02-29", "2024-13-01",
		"2024-1-01", "2024/05/31", "2024-05-31 " };
	static const char *const scales[] = { "", "1:", "1:0", "1:50x", "2:50", "1:123456", "-5" };

	ck_assert_int_eq(paper_parse("a3", &paper, &err), STATUS_OK);
	ck_assert_int_eq(paper, PAPER_A3);
	ck_assert_int_eq(paper_parse("B5", &paper, &err), STATUS_USAGE);
	ck_assert_int_eq(scale_parse("1:50", &scale, &err), STATUS_OK);
	ck_assert_int_eq(scale, 50);
	ck_assert_int_eq(scale_parse("20", &scale, &err), STATUS_OK);
	for (size_t i = 0; i < sizeof scales / sizeof *scales; i++)
		ck_assert_int_eq(scale_parse(scales[i], &scale, &err), STATUS_USAGE);
	ck_assert_int_eq(date_check("2024-02-29", &err), STATUS_OK);
	for (size_t i = 0; i < sizeof dates / sizeof *dates; i++)
		ck_assert_int_eq(date_check(dates[i], &err), STATUS_USAGE);
	ck_assert_int_eq(drawing_form_of("x/y.SVG", &form, &err), STATUS_OK);
	ck_assert_int_eq(form, DRAWING_SVG);
	ck_assert_int_eq(drawing_form_of("x.pdf.txt", &form, &err), STATUS_USAGE);
	ck_assert_int_eq(drawing_form_of(".pdf", &form, &err), STATUS_USAGE);
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("drawing");

	tcase_set_timeout(tc, 600);
	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, nothing_overlaps_or_leaves_the_page);
	tcase_add_test(tc, every_cut_piece_is_told_on_the_laying_plan);
	tcase_add_test(tc, as_many_whole_slabs_are_drawn_as_counted);
	tcase_add_test(tc, what_cannot_be_shown_gets_a_mark);
	tcase_add_test(tc, options_say_what_there_is);
	return suite_run("drawing", tc);
}
