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

/* A table may be empty: then no flow is worked out. Each says where its figures come from, and the
 * intensity never grows with the duration: a fact of rain. */
START_TEST(each_rain_table_names_its_source_and_thins_out_with_time)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_rains all;

	ck_assert_msg(store_rains(s, &mem, &all, &err) == STATUS_OK, "%s", err.text);
	ck_assert_uint_ge(all.count, 4);
	ck_assert_str_eq(all.items[0].name, "none");
	ck_assert_uint_eq(all.items[0].count, 0);
	for (size_t i = 0; i < all.count; i++) {
		const struct plan_rain *r = &all.items[i];

		ck_assert_msg(rain_check(r, "", &err) == STATUS_OK, "%s: %s", r->name, err.text);
		ck_assert_int_gt(r->name[0], 0);
		ck_assert_int_gt(r->source[0], 0);
		ck_assert(i == 0 || r->count);
		for (size_t k = 1; k < r->count; k++) {
			ck_assert_int_lt(r->rows[k].um_per_h, r->rows[k - 1].um_per_h);
			/* But more falls in all. */
			ck_assert_int_gt(r->rows[k].um_per_h * r->rows[k].minutes,
			        r->rows[k - 1].um_per_h * r->rows[k - 1].minutes);
		}
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* 12.69, 15.50, 24.80 and 52.86 mm in 10, 15, 60 and 1440 minutes: an engineer's calculation to BRE
 * Digest 365 (2017), 10-year rainfalls where r is 0.40 and M5-60 is 20 mm. */
START_TEST(the_ten_year_table_brings_the_depths_of_its_source)
{
	static const struct {
		int64_t minutes;
		double mm;
	} depths[] = { { 10, 12.69 }, { 15, 15.50 }, { 60, 24.80 }, { 1440, 52.86 } };
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_rains all;
	size_t found = 0;

	ck_assert_int_eq(store_rains(s, &mem, &all, &err), STATUS_OK);
	for (size_t i = 0; i < all.count; i++)
		for (size_t k = 0; strstr(all.items[i].name, "r 0.40") && k < all.items[i].count;
		        k++)
			for (size_t n = 0; n < sizeof depths / sizeof *depths; n++) {
				const struct rain_row *row = &all.items[i].rows[k];
				double mm = (double)row->um_per_h / 1e3 * (double)row->minutes / 60;

				if (row->minutes != depths[n].minutes)
					continue;
				found++;
				ck_assert_double_eq_tol(mm, depths[n].mm, 0.015);
			}
	ck_assert_uint_eq(found, 4);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(blocks_and_step_units_are_what_their_names_say)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_blocks blocks;
	struct store_step_units units;
	char size[80], l[40], w[40], h[40];

	ck_assert_msg(store_blocks(s, &mem, &blocks, &err) == STATUS_OK, "%s", err.text);
	ck_assert_msg(store_step_units(s, &mem, &units, &err) == STATUS_OK, "%s", err.text);
	ck_assert_uint_ge(blocks.count, 4);
	ck_assert_uint_ge(units.count, 4);
	for (size_t i = 0; i < blocks.count; i++) {
		const struct plan_block *b = &blocks.items[i];

		snprintf(size, sizeof size, "%s x %s x %s", mm_print(l, sizeof l, b->length_um),
		        mm_print(w, sizeof w, b->width_um), mm_print(h, sizeof h, b->height_um));
		ck_assert_msg(strstr(b->name, size) != NULL, "%s is not %s", b->name, size);
		ck_assert_msg(block_check(b, "", &err) == STATUS_OK, "%s", err.text);
		ck_assert_int_gt(b->density_kg_m3, 0);
		ck_assert_int_gt(b->price_minor, 0);
	}
	for (size_t i = 0; i < units.count; i++) {
		const struct store_step_unit *u = &units.items[i];

		snprintf(size, sizeof size, "%s x %s x %s", mm_print(l, sizeof l, u->length_um),
		        mm_print(w, sizeof w, u->depth_um), mm_print(h, sizeof h, u->height_um));
		ck_assert_msg(strstr(u->name, size) != NULL, "%s is not %s", u->name, size);
		ck_assert_int_gt(u->density_kg_m3, 0);
		ck_assert_int_gt(u->price_minor, 0);
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* At least a third of a kerb's height is held by its haunch (common practice, no source). */
START_TEST(each_kerb_of_the_catalogue_is_held_a_third_of_its_height)
{
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_edgings all;
	int kerbs = 0;

	ck_assert_msg(store_edgings(s, &mem, &all, &err) == STATUS_OK, "%s", err.text);
	for (size_t i = 0; i < all.count; i++) {
		const struct plan_edging *e = &all.items[i];

		ck_assert_int_eq(e->price_minor, -1);
		if (all.kinds[i] != EDGE_KERB)
			continue;
		kerbs++;
		ck_assert_int_gt(e->height_um, 0);
		ck_assert_int_gt(e->depth_um, 0);
		ck_assert_int_ge(3 * e->held_um, e->height_um);
		ck_assert_int_gt(e->strip_um, 0);
		ck_assert_int_gt(e->haunch_um, 0);
		ck_assert_int_gt(e->cement_kg_m3, 0);
		ck_assert_int_eq(e->density_kg_m3, 2300);
	}
	ck_assert_int_eq(kerbs, 8);
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
#define RAINS(items) "{\"format\":\"slabwright-rain\",\"version\":1,\"rains\":[" items "]}"
#define BLOCKS(items) "{\"format\":\"slabwright-blocks\",\"version\":1,\"blocks\":[" items "]}"
#define STEP_UNITS(items)                                                                          \
	"{\"format\":\"slabwright-step-units\",\"version\":1,\"step_units\":[" items "]}"
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
	{ "rain.json", "{\"format\":\"slabwright-rain\",\"version\":1,\"rain\":[]}",
	        "rain.json: the member \"rains\" is missing" },
	{ "rain.json", RAINS("{\"rows\":[]}"),
	        "rain.json: rains[0]: a rain of the catalogue needs" },
	{ "rain.json", RAINS("{\"name\":\"R\",\"rows\":[{\"minutes\":5}]}"),
	        "rain.json: rains[0].rows[0].mm_per_h: missing" },
	{ "rain.json",
	        RAINS("{\"name\":\"R\",\"rows\":[{\"minutes\":5,\"mm_per_h\":50},{\"minutes\":5,"
	              "\"mm_per_h\":40}]}"),
	        "rain.json: rains[0].rows[1].minutes: no more than in the row before" },
	{ "rain.json", RAINS("{\"name\":\"R\"},{\"name\":\"R\"}"), "UNIQUE" },
	{ "blocks.json", BLOCKS("{\"length\":440,\"width\":100,\"height\":215}"),
	        "blocks.json: blocks[0]: a block of the catalogue needs a name" },
	{ "blocks.json", BLOCKS("{\"name\":\"B\",\"length\":440,\"width\":100,\"height\":19}"),
	        "blocks.json: blocks[0].height: 19 mm is out of reach; give from 20 to 2000 mm" },
	{ "step_units.json", STEP_UNITS("{\"length\":1000,\"depth\":350,\"height\":150}"),
	        "step_units.json: step_units[0]: a step unit of the catalogue needs a name" },
	{ "step_units.json",
	        STEP_UNITS("{\"name\":\"S\",\"length\":1000,\"depth\":350,\"height\":2001}"),
	        "step_units.json: step_units[0].height: 2001 mm is out of reach" },
};

START_TEST(a_file_with_a_fault_is_named_and_no_store_is_made)
{
	static const char *const files[] = { "slabs.json", "edgings.json", "rulesets.json",
		"repeats.json", "mixes.json", "rain.json", "blocks.json", "step_units.json" };
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
	tcase_add_test(t, each_rain_table_names_its_source_and_thins_out_with_time);
	tcase_add_test(t, the_ten_year_table_brings_the_depths_of_its_source);
	tcase_add_test(t, blocks_and_step_units_are_what_their_names_say);
	tcase_add_test(t, each_kerb_of_the_catalogue_is_held_a_third_of_its_height);
	tcase_add_loop_test(t, a_file_with_a_fault_is_named_and_no_store_is_made, 0,
	        sizeof bad_files / sizeof *bad_files);
	return suite_run("catalogue", t);
}
