/* Stores of older versions, brought up to date. */
#include "program.h"
#include "suite.h"
#include "unit/beside.h"
#include "unit/stores.h"
#include "unit/version_3.h"
#include "unit/version_4.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static void setup(void)
{
	program_folder();
}

START_TEST(an_older_store_is_copied_before_it_is_brought_up_to_date)
{
	struct stat is;

	change_file(program_path("p.slabs"), "PRAGMA application_id = 0x534C4142; CREATE TABLE "
	                                     "kept (n); INSERT INTO kept VALUES (41)");
	program_write("p.slabs.version-0-backup", "an earlier one");
	store_close(store_in_folder("p.slabs"));
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "PRAGMA user_version"), STORE_VERSION);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs.version-0-backup-2"), "SELECT n FROM kept"), 41);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs.version-0-backup-2"), "PRAGMA user_version"), 0);
	ck_assert_int_eq(stat(program_path("p.slabs.version-0-backup-2"), &is), 0);
	ck_assert_int_eq(is.st_mode & 07777, 0600);
	ck_assert_int_eq(stat(program_path("p.slabs.version-0-backup"), &is), 0);
	ck_assert_int_eq(is.st_size, (off_t)strlen("an earlier one"));
}
END_TEST

/* Takes away what version 5 brought, and what versions 3 and 4 did. */
#define NO_STAND(table)                                                                            \
	"ALTER TABLE " table " DROP COLUMN corner_um;"                                             \
	"ALTER TABLE " table " DROP COLUMN profile;"                                               \
	"ALTER TABLE " table " DROP COLUMN foot_um;"                                               \
	"ALTER TABLE " table " DROP COLUMN height_um;"                                             \
	"ALTER TABLE " table " DROP COLUMN top_um;"                                                \
	"ALTER TABLE " table " DROP COLUMN bed;"                                                   \
	"ALTER TABLE " table " DROP COLUMN cement_kg_m3;"                                          \
	"ALTER TABLE " table " DROP COLUMN strip_um;"                                              \
	"ALTER TABLE " table " DROP COLUMN strip_beyond_um;"                                       \
	"ALTER TABLE " table " DROP COLUMN haunch_um;"                                             \
	"ALTER TABLE " table " DROP COLUMN held_um;"                                               \
	"ALTER TABLE " table " DROP COLUMN haunch_both;"                                           \
	"ALTER TABLE " table " DROP COLUMN density_kg_m3;"                                         \
	"ALTER TABLE " table " DROP COLUMN price_minor;"
#define NO_NOTES(table)                                                                            \
	"ALTER TABLE " table " DROP COLUMN notes;"                                                 \
	"ALTER TABLE " table " DROP COLUMN archived;"                                              \
	"ALTER TABLE " table " DROP COLUMN gone;"
#define BACK_TO_4                                                                                  \
	NO_NOTES("clients")                                                                        \
	NO_NOTES("jobs")                                                                           \
	NO_NOTES("variants")                                                                       \
	NO_STAND("edgings")                                                                        \
	NO_STAND("catalogue_edgings")                                                              \
	"ALTER TABLE surfaces DROP COLUMN dpc_um;"                                                 \
	"ALTER TABLE nodes DROP COLUMN channel; DROP TABLE documents; DROP TABLE "                 \
	"catalogue_documents;"
#define BACK_TO_2                                                                                  \
	BACK_TO_4                                                                                  \
	"ALTER TABLE edgings DROP COLUMN mitred; ALTER TABLE catalogue_edgings DROP COLUMN "       \
	"mitred;"                                                                                  \
	"ALTER TABLE edgings DROP COLUMN depth_um; ALTER TABLE edgings DROP COLUMN least_um;"      \
	"ALTER TABLE catalogue_edgings DROP COLUMN depth_um;"                                      \
	"ALTER TABLE catalogue_edgings DROP COLUMN least_um;"                                      \
	"ALTER TABLE nodes DROP COLUMN border; DROP TABLE borders; DROP TABLE zone_nodes;"         \
	"DROP TABLE zones;"                                                                        \
	"DROP TABLE repeat_slabs; DROP TABLE repeats; DROP TABLE mix_sizes; DROP TABLE mixes;"     \
	"DROP TABLE edge_joints;"

START_TEST(a_store_of_version_1_learns_of_courses_along_y)
{
	struct store *s = store_in_folder("p.slabs");
	int64_t variant = empty_variant(s);
	char *before = exported(s, variant), *after;

	store_close(s);
	change_file(program_path("p.slabs"),
	        BACK_TO_2 "ALTER TABLE layings DROP COLUMN along; PRAGMA user_version = 1");
	s = store_in_folder("p.slabs");
	after = exported(s, variant);
	ck_assert_str_eq(after, before);
	store_close(s);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "PRAGMA user_version"), STORE_VERSION);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs.version-1-backup"), "PRAGMA user_version"), 1);
	free(before);
	free(after);
}
END_TEST

START_TEST(a_store_of_version_2_learns_of_repeats_mixes_and_edge_joints)
{
	struct repeat_slab slab = { 0, 0, 600000, 300000 };
	struct mix_size size = { 600000, 300000, 1 };
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_repeats repeats;
	struct store_mixes mixes;
	struct edit e = { .type = EDIT_LAYING };
	struct plan plan;
	int64_t variant = empty_variant(s), slabs;
	char *before = exported(s, variant), *after;

	slabs = ask_file(program_path("p.slabs"), "SELECT count(*) FROM catalogue_slabs");
	store_close(s);
	change_file(program_path("p.slabs"), BACK_TO_2 "PRAGMA user_version = 2");
	/* Without a folder the catalogue has none; with one it has all of them. */
	if (_i)
		ck_assert_int_eq(
		        store_open(&s, program_path("p.slabs"), STORE_MUST_EXIST, NULL, &err),
		        STATUS_OK);
	else
		s = store_in_folder("p.slabs");
	after = exported(s, variant);
	ck_assert_str_eq(after, before);
	ck_assert_int_eq(store_repeats(s, &mem, &repeats, &err), STATUS_OK);
	ck_assert_int_eq(store_mixes(s, &mem, &mixes, &err), STATUS_OK);
	ck_assert_uint_eq(repeats.count, _i ? 0 : 9);
	ck_assert_uint_eq(mixes.count, _i ? 0 : 3);
	ck_assert_int_eq(store_plan(s, variant, &mem, &plan, &err), STATUS_OK);
	e.laying = plan.laying;
	e.laying.repeat = (struct plan_repeat){ "", 600000, 300000, 0, &slab, 1 };
	e.laying.mix = (struct plan_mix){ 5, &size, 1 };
	e.laying.edge_joint_um[EDGE_HOUSE_WALL] = 10000;
	ck_assert_msg(store_edit(s, variant, &e, &err) == STATUS_OK, "%s", err.text);
	ck_assert_int_eq(store_plan(s, variant, &mem, &plan, &err), STATUS_OK);
	ck_assert_uint_eq(plan.laying.repeat.count + plan.laying.mix.count, 2);
	ck_assert_int_eq(plan.laying.edge_joint_um[EDGE_HOUSE_WALL], 10000);
	store_close(s);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "PRAGMA user_version"), STORE_VERSION);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs"), "SELECT count(*) FROM catalogue_slabs"), slabs);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs.version-2-backup"), "PRAGMA user_version"), 2);
	arena_free(&mem);
	free(before);
	free(after);
}
END_TEST

/* With the program's folder or without one: it had all of these kinds. */
START_TEST(a_store_of_version_3_keeps_its_plans_edits_and_catalogue)
{
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store *s, *other = store_in_folder("other.slabs");
	struct store_repeats repeats;
	struct store_mixes mixes;
	struct store_slabs slabs;
	struct plan plan, said;
	char label[80];
	bool done;

	version_3_make(program_path("p.slabs"));
	ck_assert_msg(store_open(&s, program_path("p.slabs"), STORE_MUST_EXIST,
	                      _i ? NULL : getenv("SHARE"), &err) == STATUS_OK,
	        "%s", err.text);
	ck_assert_int_eq(store_plan(s, 1, &mem, &plan, &err), STATUS_OK);
	ck_assert_int_eq(store_plan(other, imported(other, version_3_document), &mem, &said, &err),
	        STATUS_OK);
	ck_assert_uint_eq(plan.laying.repeat.count + plan.laying.mix.count, 3);
	ck_assert_ptr_null(plans_differ(&plan, &said));
	ck_assert_int_eq(store_repeats(s, &mem, &repeats, &err), STATUS_OK);
	ck_assert_int_eq(store_mixes(s, &mem, &mixes, &err), STATUS_OK);
	ck_assert_int_eq(store_slabs(s, &mem, &slabs, &err), STATUS_OK);
	ck_assert_uint_eq(repeats.count, 1);
	ck_assert_uint_eq(mixes.count, 1);
	ck_assert_uint_eq(slabs.count, 1);
	ck_assert_str_eq(repeats.items[0].name, "Row");
	ck_assert_int_eq(repeats.items[0].slabs[0].length_um, 600000);
	ck_assert_str_eq(mixes.items[0].name, "Pack");
	ck_assert_int_eq(mixes.items[0].mix.sizes[0].share, 2);
	ck_assert_int_eq(slabs.items[0].price_minor, -1);
	ck_assert_int_eq(store_undo(s, 1, &done, label, &err), STATUS_OK);
	ck_assert_str_eq(label, "move corner 3");
	ck_assert_int_eq(store_plan(s, 1, &mem, &plan, &err), STATUS_OK);
	ck_assert_int_eq(plan.rings[0].nodes[2].x_um, 6200000);
	arena_free(&mem);
	store_close(s);
	store_close(other);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "PRAGMA user_version"), STORE_VERSION);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs"), "SELECT count(*) FROM pragma_foreign_key_check"),
	        0);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs.version-3-backup"), "PRAGMA user_version"), 3);
	ck_assert_int_eq(ask_file(program_path("p.slabs.version-3-backup"),
	                         "SELECT count(*) FROM repeats JOIN repeat_slabs ON repeat = id"),
	        3);
}
END_TEST

START_TEST(a_store_of_version_3_learns_of_borders_and_zones)
{
	struct repeat_slab slab = { 0, 0, 600000, 300000 };
	struct mix_size size = { 600000, 300000, 1 };
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct plan_border border;
	struct plan_zone zone;
	struct plan plan, before;
	struct edit e = { .type = EDIT_BORDERS, .borders = &border, .border_count = 1 };
	struct store *s;

	version_3_make(program_path("p.slabs"));
	s = store_in_folder("p.slabs");
	ck_assert_int_eq(store_plan(s, 1, &mem, &before, &err), STATUS_OK);
	ck_assert_uint_eq(before.border_count + before.zone_count, 0);
	border_init(&border);
	ck_assert_msg(store_edit(s, 1, &e, &err) == STATUS_OK, "%s", err.text);
	zone_init(&zone);
	zone.laying.repeat = (struct plan_repeat){ "", 600000, 300000, 0, &slab, 1 };
	zone.laying.mix = (struct plan_mix){ 5, &size, 1 };
	e = (struct edit){ .type = EDIT_ZONES, .zones = &zone, .zone_count = 1 };
	ck_assert_msg(store_edit(s, 1, &e, &err) == STATUS_OK, "%s", err.text);
	e = (struct edit){ .type = EDIT_NODE_SET, .at = 1, .node = before.rings[0].nodes[1] };
	e.node.border = 1;
	ck_assert_msg(store_edit(s, 1, &e, &err) == STATUS_OK, "%s", err.text);
	ck_assert_int_eq(store_plan(s, 1, &mem, &plan, &err), STATUS_OK);
	/* The zone's repeat and mix stand beside those of the variant's own laying. */
	ck_assert_int_eq(plan.zones[0].laying.mix.seed, 5);
	ck_assert_int_eq(plan.zones[0].laying.repeat.slabs[0].length_um, 600000);
	ck_assert_int_eq(plan.laying.mix.seed, 41);
	ck_assert_str_eq(plan.laying.repeat.name, "Wheel");
	ck_assert_int_eq(plan.rings[0].nodes[0].border, 0);
	ck_assert_int_eq(plan.rings[0].nodes[1].border, 1);
	before.borders = &border;
	before.zones = &zone;
	before.border_count = before.zone_count = 1;
	before.rings[0].nodes[1].border = 1;
	ck_assert_ptr_null(plans_differ(&plan, &before));
	arena_free(&mem);
	store_close(s);
}
END_TEST

/* With the program's folder or without one. */
START_TEST(a_store_of_version_4_keeps_its_plans_edits_and_catalogue)
{
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store *s, *other = store_in_folder("other.slabs");
	struct store_edgings edgings;
	struct store_rains rains;
	struct plan plan, said;
	char label[80];
	bool done;

	version_4_make(program_path("p.slabs"));
	ck_assert_msg(store_open(&s, program_path("p.slabs"), STORE_MUST_EXIST,
	                      _i ? NULL : getenv("SHARE"), &err) == STATUS_OK,
	        "%s", err.text);
	ck_assert_int_eq(store_plan(s, 1, &mem, &plan, &err), STATUS_OK);
	ck_assert_int_eq(store_plan(other, imported(other, version_4_document), &mem, &said, &err),
	        STATUS_OK);
	ck_assert_uint_eq(plan.border_count + plan.zone_count, 2);
	ck_assert_ptr_null(plans_differ(&plan, &said));
	ck_assert_int_eq(plan.edging[EDGE_KERB].price_minor, -1);
	ck_assert_int_eq(store_edgings(s, &mem, &edgings, &err), STATUS_OK);
	ck_assert_uint_eq(edgings.count, 1);
	ck_assert_int_eq(edgings.items[0].price_minor, -1);
	ck_assert_int_eq(edgings.items[0].profile, PROFILE_STRAIGHT);
	/* What it had no place for comes from the folder. */
	ck_assert_int_eq(store_rains(s, &mem, &rains, &err), STATUS_OK);
	ck_assert_int_eq(rains.count > 0, !_i);
	ck_assert_int_eq(store_undo(s, 1, &done, label, &err), STATUS_OK);
	ck_assert_str_eq(label, "move corner 3");
	ck_assert_int_eq(store_plan(s, 1, &mem, &plan, &err), STATUS_OK);
	ck_assert_int_eq(plan.rings[0].nodes[2].x_um, 6300000);
	arena_free(&mem);
	store_close(s);
	store_close(other);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "PRAGMA user_version"), STORE_VERSION);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs"), "SELECT count(*) FROM pragma_foreign_key_check"),
	        0);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs.version-4-backup"), "PRAGMA user_version"), 4);
	ck_assert_int_eq(ask_file(program_path("p.slabs.version-4-backup"),
	                         "SELECT count(*) FROM nodes WHERE border = 1"),
	        1);
}
END_TEST

START_TEST(a_store_of_version_4_learns_of_what_stands_beside_the_paving)
{
	struct plan all = plan_with_all_beside(), plan, before;
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct edit e;
	struct store *s;

	version_4_make(program_path("p.slabs"));
	s = store_in_folder("p.slabs");
	ck_assert_int_eq(store_plan(s, 1, &mem, &before, &err), STATUS_OK);
	for (int i = 0; i < 4; i++) {
		e = beside_edit(&all, i);
		ck_assert_msg(store_edit(s, 1, &e, &err) == STATUS_OK, "%s", err.text);
		ck_assert_int_eq(edit_apply(&mem, &before, &e, NULL, &err), STATUS_OK);
	}
	e = (struct edit){ .type = EDIT_NODE_SET, .at = 1, .node = before.rings[0].nodes[1] };
	e.node.channel = 2;
	ck_assert_msg(store_edit(s, 1, &e, &err) == STATUS_OK, "%s", err.text);
	ck_assert_int_eq(store_plan(s, 1, &mem, &plan, &err), STATUS_OK);
	ck_assert_int_eq(plan.rings[0].nodes[0].channel, 0);
	ck_assert_int_eq(plan.rings[0].nodes[1].channel, 2);
	ck_assert_int_eq(plan.rings[0].nodes[1].border, 1);
	before.rings[0].nodes[1].channel = 2;
	ck_assert_ptr_null(plans_differ(&plan, &before));
	arena_free(&mem);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("upgrade");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_test(t, an_older_store_is_copied_before_it_is_brought_up_to_date);
	tcase_add_test(t, a_store_of_version_1_learns_of_courses_along_y);
	tcase_add_loop_test(t, a_store_of_version_2_learns_of_repeats_mixes_and_edge_joints, 0, 2);
	tcase_add_loop_test(t, a_store_of_version_3_keeps_its_plans_edits_and_catalogue, 0, 2);
	tcase_add_test(t, a_store_of_version_3_learns_of_borders_and_zones);
	tcase_add_loop_test(t, a_store_of_version_4_keeps_its_plans_edits_and_catalogue, 0, 2);
	tcase_add_test(t, a_store_of_version_4_learns_of_what_stands_beside_the_paving);
	return suite_run("store upgrade", t);
}
