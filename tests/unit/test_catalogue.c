/* The catalogue that comes with the program: its repeats tile, its mixes can be laid, and a file
 * with a fault is refused by its place. */
#include "program.h"
#include "suite.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { POINTS = 10000, LARGEST_FILE = 1 << 16 };

static void setup(void)
{
	program_folder();
}

static struct store_repeats repeats_of(struct store *s, struct arena *mem)
{
	struct store_repeats all;
	struct error err = { 0 };

	ck_assert_msg(store_repeats(s, mem, &all, &err) == STATUS_OK, "%s", err.text);
	return all;
}

static int64_t floor_div(int64_t a, int64_t b)
{
	return a / b - (a % b < 0);
}

/* In how many slabs of the repeated repeat a point lies: for each slab and each row of the lattice
 * that can reach the point, the steps along x that bring the slab over it. */
static int slabs_over(const struct plan_repeat *r, int64_t x, int64_t y)
{
	int over = 0;

	for (size_t i = 0; i < r->count; i++) {
		const struct repeat_slab *b = &r->slabs[i];
		int64_t last = floor_div(y - b->y_um, r->step_y_um);

		for (int64_t k = last; b->y_um + k * r->step_y_um + b->width_um > y; k--) {
			int64_t left = x - b->x_um - k * r->slant_um;
			int64_t n = floor_div(left, r->step_x_um);

			for (; left - n * r->step_x_um < b->length_um; n--)
				over++;
		}
	}
	return over;
}

/* How many sizes a repeat has, a slab standing or lying being of one size. */
static size_t sizes_in(const struct plan_repeat *r)
{
	size_t sizes = 0;

	for (size_t i = 0; i < r->count; i++) {
		const struct repeat_slab *a = &r->slabs[i];
		size_t j = 0;

		for (; j < i; j++) {
			const struct repeat_slab *b = &r->slabs[j];

			if ((a->length_um == b->length_um && a->width_um == b->width_um) ||
			        (a->length_um == b->width_um && a->width_um == b->length_um))
				break;
		}
		sizes += j == i;
	}
	return sizes;
}

START_TEST(every_point_lies_in_exactly_one_slab_of_each_repeat)
{
	struct chance d = chance_new(chance_seed("repeats", 11));
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct store_repeats all = repeats_of(s, &mem);

	for (size_t i = 0; i < all.count; i++)
		for (int p = 0; p < POINTS; p++) {
			int64_t x = chance_int(&d, -9000000, 9000000),
			        y = chance_int(&d, -9000000, 9000000);
			int over = slabs_over(&all.items[i], x, y);

			ck_assert_msg(over == 1, "%s: %d slabs over %lld, %lld", all.items[i].name,
			        over, (long long)x, (long long)y);
		}
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(the_count_of_slabs_over_a_point_sees_gaps_and_overlaps)
{
	struct repeat_slab slabs[] = { { 0, 0, 600, 300 }, { 0, 300, 600, 300 } };
	struct plan_repeat r = { "", 600, 700, 250, slabs, 2 };

	ck_assert_int_eq(slabs_over(&r, -1, 0), 1);
	ck_assert_int_eq(slabs_over(&r, 5, 650), 0);
	r.step_y_um = 500;
	ck_assert_int_eq(slabs_over(&r, 5, 550), 2);
	ck_assert_int_eq(slabs_over(&r, 5, 450), 1);
}
END_TEST

START_TEST(each_repeat_has_a_name_and_tiles_by_its_areas)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_repeats all = repeats_of(s, &mem);
	bool seen[7] = { false };

	ck_assert_uint_ge(all.count, 6);
	for (size_t i = 0; i < all.count; i++) {
		const struct plan_repeat *r = &all.items[i];
		size_t sizes = sizes_in(r);
		int64_t area = 0;

		for (size_t k = 0; k < r->count; k++)
			area += r->slabs[k].length_um * r->slabs[k].width_um;
		ck_assert_int_eq(area, r->step_x_um * r->step_y_um);
		ck_assert_msg(repeat_check(r, "", &err) == STATUS_OK, "%s: %s", r->name, err.text);
		ck_assert_int_gt(r->name[0], 0);
		ck_assert_uint_lt(sizes, sizeof seen / sizeof *seen);
		seen[sizes] = true;
	}
	for (size_t n = 2; n <= 6; n++)
		ck_assert_msg(seen[n], "no repeat of %zu sizes", n);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(each_mix_can_be_laid_in_courses_of_more_than_one_length)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_mixes all;

	ck_assert_int_eq(store_mixes(s, &mem, &all, &err), STATUS_OK);
	ck_assert_uint_eq(all.count, 3);
	for (size_t i = 0; i < all.count; i++) {
		const struct plan_mix *m = &all.items[i].mix;

		ck_assert_msg(
		        mix_check(m, "", &err) == STATUS_OK, "%s: %s", all.items[i].name, err.text);
		ck_assert_int_gt(all.items[i].name[0], 0);
		for (size_t k = 0; k < m->count; k++) {
			int lengths = 0;

			for (size_t n = 0; n < m->count; n++)
				lengths += m->sizes[n].width_um == m->sizes[k].width_um;
			ck_assert_int_gt(lengths, 1);
		}
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* --- files with faults --- */

/* Copies a shared file into the test's folder. */
static void copy_shared(const char *name)
{
	char path[400], *text = calloc(1, LARGEST_FILE);
	size_t n;
	FILE *f;

	snprintf(path, sizeof path, "%s/%s", getenv("SHARE"), name);
	f = fopen(path, "r");
	ck_assert_ptr_nonnull(f);
	n = fread(text, 1, LARGEST_FILE - 1, f);
	fclose(f);
	ck_assert_uint_lt(n, LARGEST_FILE - 1);
	program_write(name, text);
	free(text);
}

#define REPEATS(items)                                                                             \
	"{\"format\":\"slabwright-repeats\",\"version\":1,\"note\":\"n\",\"repeats\":[" items "]}"
#define MIXES(items) "{\"format\":\"slabwright-mixes\",\"version\":1,\"mixes\":[" items "]}"
#define GOOD                                                                                       \
	"{\"name\":\"R\",\"step_x\":600,\"step_y\":300,\"slabs\":[{\"x\":0,\"y\":0,\"length\":"    \
	"600,"                                                                                     \
	"\"width\":300}]}"

static const struct {
	const char *file, *text, *words;
} bad_files[] = {
	{ "repeats.json", "{}", "repeats.json: format: not \"slabwright-repeats\"" },
	{ "repeats.json", "{\"format\":\"slabwright-repeats\",\"version\":1}",
	        "repeats.json: the member \"repeats\" is missing" },
	{ "repeats.json",
	        REPEATS("{\"step_x\":600,\"step_y\":300,\"slabs\":[{\"x\":0,\"y\":0,\"length\":600,"
	                "\"width\":300}]}"),
	        "repeats.json: repeats[0]: a repeat of the catalogue needs a name" },
	{ "repeats.json",
	        REPEATS(GOOD ",{\"name\":\"S\",\"step_x\":600,\"step_y\":600,\"slabs\":[{\"x\":0,"
	                     "\"y\":0,\"length\":600,\"width\":300}]}"),
	        "repeats.json: repeats[1]: repeat: its slabs cover 0.180000 m2" },
	{ "repeats.json", REPEATS(GOOD "," GOOD), "UNIQUE" },
	{ "mixes.json", MIXES("{\"sizes\":[]}"), "mixes.json: mixes[0].name: missing" },
	{ "mixes.json", MIXES("{\"name\":\"M\",\"sizes\":[]}"),
	        "mixes.json: mixes[0]: mix: coursed random bond needs 1 to 16 sizes" },
	{ "mixes.json",
	        MIXES("{\"name\":\"M\",\"sizes\":[{\"length\":600,\"width\":300,\"share\":\"3\"}]"
	              "}"),
	        "mixes.json: mixes[0].sizes[0].share: not a number" },
};

START_TEST(a_file_with_a_fault_is_named_and_no_store_is_made)
{
	static const char *const files[] = { "slabs.json", "edgings.json", "rulesets.json",
		"repeats.json", "mixes.json" };
	struct store *s = NULL;
	struct error err = { 0 };

	for (size_t i = 0; i < sizeof files / sizeof *files; i++)
		copy_shared(files[i]);
	program_write(bad_files[_i].file, bad_files[_i].text);
	ck_assert_int_eq(
	        store_open(&s, program_path("p.slabs"), STORE_MAY_CREATE, program_path("."), &err),
	        STATUS_STORE);
	ck_assert_ptr_null(s);
	ck_assert_msg(strstr(err.text, bad_files[_i].words) != NULL, "\"%s\" does not say \"%s\"",
	        err.text, bad_files[_i].words);
	copy_shared(bad_files[_i].file); /* mended, it is taken */
	ck_assert_int_eq(
	        store_open(&s, program_path("p.slabs"), STORE_MAY_CREATE, program_path("."), &err),
	        STATUS_OK);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("catalogue");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, every_point_lies_in_exactly_one_slab_of_each_repeat);
	tcase_add_test(t, the_count_of_slabs_over_a_point_sees_gaps_and_overlaps);
	tcase_add_test(t, each_repeat_has_a_name_and_tiles_by_its_areas);
	tcase_add_test(t, each_mix_can_be_laid_in_courses_of_more_than_one_length);
	tcase_add_loop_test(t, a_file_with_a_fault_is_named_and_no_store_is_made, 0,
	        sizeof bad_files / sizeof *bad_files);
	return suite_run("catalogue", t);
}
