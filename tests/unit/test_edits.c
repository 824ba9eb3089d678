/* Edits, undo and redo: what an edit writes, what it refuses, and that every one can be taken back.
 */
#include "program.h"
#include "suite.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { EDITS = 250 };

static void setup(void)
{
	program_folder();
}

static struct plan plan_of(struct store *s, int64_t variant, struct arena *mem)
{
	struct plan plan;
	struct error err = { 0 };

	ck_assert_msg(store_plan(s, variant, mem, &plan, &err) == STATUS_OK, "%s", err.text);
	return plan;
}

static void edit(struct store *s, int64_t variant, const struct edit *e)
{
	struct error err = { 0 };

	ck_assert_msg(store_edit(s, variant, e, &err) == STATUS_OK, "%s", err.text);
}

/* Applies a random edit to the store and to the model in memory. */
static void edit_both(
        struct chance *d, struct arena *mem, struct store *s, int64_t variant, struct plan *model)
{
	struct error err = { 0 };
	struct edit e;

	random_edit(d, mem, model, &e);
	ck_assert_msg(edit_apply(mem, model, &e, NULL, &err) == STATUS_OK, "%s", err.text);
	edit(s, variant, &e);
}

static void same_plan(const struct plan *a, const struct plan *b)
{
	const char *differs = plans_differ(a, b);

	ck_assert_msg(!differs, "the plans differ in %s", differs);
}

START_TEST(any_edits_can_be_taken_back_and_repeated)
{
	struct chance d = { .state = (uint64_t)_i * 7919 + 1 };
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct plan empty, model, now;
	int64_t variant = empty_variant(s), undo, redo;
	char label[80];
	bool done;

	empty = model = plan_of(s, variant, &mem);
	for (int i = 0; i < EDITS; i++)
		edit_both(&d, &mem, s, variant, &model);
	now = plan_of(s, variant, &mem);
	same_plan(&now, &model);

	store_close(s); /* undo outlives the program */
	s = store_in_folder("p.slabs");
	for (int i = 0; i < EDITS; i++) {
		ck_assert_msg(
		        store_undo(s, variant, &done, label, &err) == STATUS_OK, "%s", err.text);
		ck_assert(done);
	}
	now = plan_of(s, variant, &mem);
	same_plan(&now, &empty);
	ck_assert_int_eq(store_undo(s, variant, &done, label, &err), STATUS_OK);
	ck_assert(!done);
	ck_assert_int_eq(store_undo_depth(s, variant, &undo, &redo, &err), STATUS_OK);
	ck_assert_int_eq(undo, 0);
	ck_assert_int_eq(redo, EDITS);

	for (int i = 0; i < EDITS; i++)
		ck_assert_msg(store_redo(s, variant, &done, label, &err) == STATUS_OK && done, "%s",
		        err.text);
	now = plan_of(s, variant, &mem);
	same_plan(&now, &model);
	ck_assert_int_eq(store_redo(s, variant, &done, label, &err), STATUS_OK);
	ck_assert(!done);
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(each_step_back_gives_the_plan_before_it)
{
	enum { STEPS = 60 };
	struct chance d = { .state = 4242 };
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct plan model;
	int64_t variant = empty_variant(s);
	char *before[STEPS + 1], *now, label[80];
	bool done;

	model = plan_of(s, variant, &mem);
	for (int i = 0; i < STEPS; i++) {
		before[i] = exported(s, variant);
		edit_both(&d, &mem, s, variant, &model);
	}
	for (int i = STEPS - 1; i >= 0; i--) {
		ck_assert_int_eq(store_undo(s, variant, &done, label, &err), STATUS_OK);
		now = exported(s, variant);
		ck_assert_str_eq(now, before[i]);
		free(now);
		free(before[i]);
	}
	arena_free(&mem);
	store_close(s);
}
END_TEST

START_TEST(a_new_edit_forgets_what_was_undone)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t variant = empty_variant(s), undo, redo;
	struct edit e = { .type = EDIT_RULES, .text = "UK guidance" };
	char label[80];
	bool done;

	for (int i = 0; i < 3; i++) {
		snprintf(e.label, sizeof e.label, "edit %d", i);
		edit(s, variant, &e);
	}
	ck_assert_int_eq(store_undo(s, variant, &done, label, &err), STATUS_OK);
	ck_assert_str_eq(label, "edit 2");
	ck_assert_int_eq(store_undo(s, variant, &done, label, &err), STATUS_OK);
	ck_assert_str_eq(label, "edit 1");
	ck_assert_int_eq(store_redo(s, variant, &done, label, &err), STATUS_OK);
	ck_assert_str_eq(label, "edit 1");
	snprintf(e.label, sizeof e.label, "another");
	edit(s, variant, &e);
	ck_assert_int_eq(store_undo_depth(s, variant, &undo, &redo, &err), STATUS_OK);
	ck_assert_int_eq(undo, 3);
	ck_assert_int_eq(redo, 0);
	ck_assert_int_eq(store_undo(s, variant, &done, label, &err), STATUS_OK);
	ck_assert_str_eq(label, "another");
	store_close(s);
}
END_TEST

START_TEST(variants_are_undone_apart_and_a_copy_starts_fresh)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t a = empty_variant(s), b, undo, redo;
	char *of_b, *still, label[80];
	bool done;

	edit(s, a, &(struct edit){ .type = EDIT_RULES, .text = "UK guidance" });
	ck_assert_int_eq(store_variant_copy(s, a, "B", &b, &err), STATUS_OK);
	ck_assert_int_eq(store_undo_depth(s, b, &undo, &redo, &err), STATUS_OK);
	ck_assert_int_eq(undo + redo, 0);
	of_b = exported(s, b);
	ck_assert_ptr_nonnull(strstr(of_b, "UK guidance"));
	ck_assert_int_eq(store_undo(s, a, &done, label, &err), STATUS_OK);
	still = exported(s, b);
	ck_assert_str_eq(of_b, still);
	free(of_b);
	free(still);
	store_close(s);
}
END_TEST

/* --- what is refused --- */

#define UM_BEYOND (COORD_LIMIT_UM + 1)

static struct edit laying_edit(void (*spoil)(struct plan_laying *l))
{
	struct edit e = { .type = EDIT_LAYING };
	struct plan plan;

	plan_init(&plan);
	e.laying = plan.laying;
	spoil(&e.laying);
	return e;
}

static void too_long(struct plan_laying *l)
{
	l->slab.length_um = 6000000;
}
static void offset_one(struct plan_laying *l)
{
	l->offset = 1;
}
static void bad_bond(struct plan_laying *l)
{
	l->bond = (enum bond)99;
}
static void bad_name(struct plan_laying *l)
{
	l->slab.name = "\xFF";
}

static struct repeat_slab lone_slab = { 0, 0, 600000, 300000 };

static void gaps(struct plan_laying *l)
{
	l->repeat = (struct plan_repeat){ "", 600000, 600000, 0, &lone_slab, 1 };
}
static void bad_repeat_name(struct plan_laying *l)
{
	l->repeat = (struct plan_repeat){ "\xFF", 600000, 300000, 0, &lone_slab, 1 };
}
static void no_repeat(struct plan_laying *l)
{
	l->bond = BOND_MIXED;
}
static void far_seed(struct plan_laying *l)
{
	static struct mix_size size = { 600000, 300000, 1 };

	l->mix = (struct plan_mix){ 1000000001, &size, 1 };
}
static void wide_edge_joint(struct plan_laying *l)
{
	l->edge_joint_um[EDGE_STEPS] = 100001;
}

static void refused(struct store *s, int64_t variant, const struct edit *e, const char *words)
{
	struct error err = { 0 };
	char *before = exported(s, variant), *after;
	int64_t undo, redo, undo_after, redo_after;

	store_undo_depth(s, variant, &undo, &redo, NULL);
	ck_assert_int_eq(store_edit(s, variant, e, &err), STATUS_PLAN);
	ck_assert_msg(
	        strstr(err.text, words) != NULL, "\"%s\" does not say \"%s\"", err.text, words);
	after = exported(s, variant);
	ck_assert_str_eq(before, after);
	store_undo_depth(s, variant, &undo_after, &redo_after, NULL);
	ck_assert_int_eq(undo, undo_after);
	ck_assert_int_eq(redo, redo_after);
	free(before);
	free(after);
}

START_TEST(an_edit_that_cannot_stand_changes_nothing)
{
	struct plan_node far_node = { .x_um = UM_BEYOND, .kind = EDGE_OPEN };
	struct plan_plane steep = { .fall_um_per_m = 600000 };
	struct store *s = store_in_folder("p.slabs");
	int64_t variant = empty_variant(s);
	struct edit e;

	edit(s, variant, &(struct edit){ .type = EDIT_RING_INSERT });
	refused(s, variant, &(struct edit){ .type = EDIT_NODE_INSERT, .node = far_node }, "x of");
	refused(s, variant,
	        &(struct edit){ .type = EDIT_NODE_INSERT, .node = { .kind = (enum edge_kind)7 } },
	        "kind of edge");
	refused(s, variant, &(struct edit){ .type = EDIT_NODE_SET, .at = 0 }, "no corner 1");
	refused(s, variant, &(struct edit){ .type = EDIT_NODE_DELETE, .ring = 2 }, "no ring 3");
	refused(s, variant,
	        &(struct edit){ .type = EDIT_RING_SET, .ring_value = { &far_node, 1, true } },
	        "x of");
	refused(s, variant,
	        &(struct edit){ .type = EDIT_SURFACE, .surface = { .planes = &steep, .count = 1 } },
	        "planes[0].fall");
	refused(s, variant, &(struct edit){ .type = EDIT_GROUND, .ground = { .bedding_um = -1 } },
	        "bedding");
	refused(s, variant,
	        &(struct edit){ .type = EDIT_EDGING,
	                .at = EDGE_KERB,
	                .edging = { .name = "k", .unit_um = -1 } },
	        "unit");
	refused(s, variant, &(struct edit){ .type = EDIT_EDGING, .at = EDGE_KINDS },
	        "kind of edge");
	refused(s, variant, &(struct edit){ .type = EDIT_RULES, .text = "Mars" },
	        "no rule set \"Mars\"");
	refused(s, variant, &(struct edit){ .type = EDIT_TYPES }, "unknown edit");
	e = laying_edit(too_long);
	refused(s, variant, &e, "slab.length");
	e = laying_edit(offset_one);
	refused(s, variant, &e, "offset");
	e = laying_edit(bad_bond);
	refused(s, variant, &e, "bond");
	e = laying_edit(bad_name);
	refused(s, variant, &e, "UTF-8");
	e = laying_edit(gaps);
	refused(s, variant, &e, "repeat: its slabs cover");
	e = laying_edit(bad_repeat_name);
	refused(s, variant, &e, "repeat.name");
	e = laying_edit(no_repeat);
	refused(s, variant, &e, "repeat: mixed bond needs");
	e = laying_edit(far_seed);
	refused(s, variant, &e, "mix.seed");
	e = laying_edit(wide_edge_joint);
	refused(s, variant, &e, "edge_joints.steps");
	store_close(s);
}
END_TEST

/* --- speed --- */

static double now_ms(void)
{
	struct timespec t;

	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
	return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

START_TEST(moving_a_corner_takes_well_under_a_millisecond_of_work)
{
	enum { CORNERS = 20, MOVES = 200 };
	struct plan_node nodes[CORNERS];
	struct store *s = store_in_folder("p.slabs");
	int64_t variant = empty_variant(s);
	struct edit e = { .type = EDIT_NODE_SET, .at = 7 };
	double best = 1e9;

	for (int i = 0; i < CORNERS; i++)
		nodes[i] = (struct plan_node){ i * 500000, i % 2 * 700000, 0, EDGE_KERB, 0, 0 };
	edit(s, variant,
	        &(struct edit){ .type = EDIT_RING_INSERT, .ring_value = { nodes, CORNERS, true } });
	e.node = nodes[7];
	for (int i = 0; i < MOVES; i++) {
		double start = now_ms();

		e.node.x_um++;
		edit(s, variant, &e);
		if (now_ms() - start < best)
			best = now_ms() - start;
	}
	/* The process's own time: without the wait for the disk. A sanitizer's build is slower. */
	ck_assert_msg(best < 5, "%.3f ms", best);
	printf("an edit takes %.3f ms of work\n", best);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("edits");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 120);
	tcase_add_loop_test(t, any_edits_can_be_taken_back_and_repeated, 0, 8);
	tcase_add_test(t, each_step_back_gives_the_plan_before_it);
	tcase_add_test(t, a_new_edit_forgets_what_was_undone);
	tcase_add_test(t, variants_are_undone_apart_and_a_copy_starts_fresh);
	tcase_add_test(t, an_edit_that_cannot_stand_changes_nothing);
	tcase_add_test(t, moving_a_corner_takes_well_under_a_millisecond_of_work);
	return suite_run("edits", t);
}
