/* Two stores that were edited apart, merged: by UUID, nothing lost, clashes told. */
#include "program.h"
#include "suite.h"
#include "unit/documents.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct store *a, *b;
static struct arena mem;
static struct error err;

static void setup(void)
{
	program_folder();
	a = store_in_folder("a.slabs");
	b = store_in_folder("b.slabs");
}

static void teardown(void)
{
	store_close(a);
	store_close(b);
	arena_free(&mem);
	program_folder_remove();
}

static const char *client_of(struct store *s, int64_t client)
{
	const char *json;

	ck_assert_msg(
	        store_export_client(s, client, &mem, &json, &err) == STATUS_OK, "%s", err.text);
	return json;
}

static enum status merged(
        struct store *s, const char *json, enum store_clashes how, struct store_merged *out)
{
	return store_merge(s, json, strlen(json), NULL, how, &mem, out, &err);
}

static void take(
        struct store *s, const char *json, enum store_clashes how, struct store_merged *out)
{
	ck_assert_msg(merged(s, json, how, out) == STATUS_OK, "%s", err.text);
}

static void change(struct store *s, int64_t variant, const char *rules)
{
	ck_assert_int_eq(
	        store_edit(s, variant, &(struct edit){ .type = EDIT_RULES, .text = rules }, &err),
	        STATUS_OK);
}

static size_t variants(struct store *s, int64_t job)
{
	struct store_list list;

	ck_assert_int_eq(
	        store_entries(s, STORE_VARIANT, job, STORE_WITH_ARCHIVED, &mem, &list, &err),
	        STATUS_OK);
	return list.count;
}

START_TEST(a_client_goes_out_and_comes_in_whole)
{
	struct store_merged m;
	int64_t variant = empty_variant(a), job, other;
	struct store_place at;
	const char *json;

	ck_assert_int_eq(store_place_of(a, variant, &mem, &at, &err), STATUS_OK);
	imported(a, full_document);
	ck_assert_int_eq(store_job_add(a, at.client, "Path", &job, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_copy_to(a, variant, job, "Z", &other, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(a, at.client, "Bare", &job, &err), STATUS_OK);
	ck_assert_int_eq(
	        store_notes_set(a, STORE_CLIENT, at.client, "dog\n\x1B[2J", &err), STATUS_OK);
	ck_assert_int_eq(store_notes_set(a, STORE_JOB, job, "later", &err), STATUS_OK);
	ck_assert_int_eq(store_notes_set(a, STORE_VARIANT, other, "dear", &err), STATUS_OK);
	ck_assert_int_eq(store_archive(a, STORE_JOB, job, true, &err), STATUS_OK);
	ck_assert_int_eq(store_archive(a, STORE_VARIANT, other, true, &err), STATUS_OK);
	json = client_of(a, at.client);
	take(b, json, STORE_CLASHES_REFUSED, &m);
	ck_assert_str_eq(client_of(b, m.client), json);
	take(b, json, STORE_CLASHES_REFUSED, &m);
	ck_assert_uint_eq(m.added + m.beside + m.back + m.joined + m.clash_count, 0);
	ck_assert_str_eq(client_of(b, m.client), json);
}
END_TEST

START_TEST(a_document_has_either_one_job_or_jobs)
{
	static const char *const faults[][2] = {
		{ "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"C\"},"
		  "\"jobs\":[],\"variants\":[]}",
		        "variants: " },
		{ "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"C\"},"
		  "\"jobs\":[{\"title\":\"J\"}]}",
		        "jobs[0].variants: missing" },
		{ "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"C\","
		  "\"notes\":5},\"jobs\":[]}",
		        "client.notes: not a text" },
		{ "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"C\"},"
		  "\"jobs\":[{\"title\":\"J\",\"archived\":1,\"variants\":[]}]}",
		        "jobs[0].archived: " },
	};
	struct store_merged m;

	for (size_t i = 0; i < sizeof faults / sizeof *faults; i++) {
		ck_assert_int_eq(merged(a, faults[i][0], STORE_CLASHES_REFUSED, &m), STATUS_PLAN);
		ck_assert_msg(
		        strncmp(err.text, faults[i][1], strlen(faults[i][1])) == 0, "%s", err.text);
	}
	take(a,
	        "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"C\"},"
	        "\"jobs\":[]}",
	        STORE_CLASHES_REFUSED, &m);
	ck_assert_int_gt(m.client, 0);
	ck_assert_int_eq(m.job + m.variant, 0);
}
END_TEST

/* Both stores with the same three variants. */
static int64_t both(struct store_merged *m)
{
	int64_t variant = imported(a, full_document);
	struct store_place at;

	ck_assert_int_eq(store_place_of(a, variant, &mem, &at, &err), STATUS_OK);
	take(b, client_of(a, at.client), STORE_CLASHES_REFUSED, m);
	return variant;
}

START_TEST(all_clashes_are_told_with_what_differs_and_nothing_is_taken_in)
{
	struct store_merged m;
	int64_t variant = both(&m), there = m.variant, extra;
	struct store_place at;
	const char *json, *before = client_of(b, m.client);

	ck_assert_int_eq(store_place_of(a, variant, &mem, &at, &err), STATUS_OK);
	change(a, variant, "none");
	ck_assert_int_eq(store_edit(a, variant,
	                         &(struct edit){ .type = EDIT_GROUND,
	                                 .ground = { .bedding_um = 31000, .sub_base_um = 100000 } },
	                         &err),
	        STATUS_OK);
	ck_assert_int_eq(store_variant_add(a, at.job, "new", &extra, &err), STATUS_OK);
	ck_assert_int_eq(store_notes_set(a, STORE_JOB, at.job, "here", &err), STATUS_OK);
	ck_assert_int_eq(store_notes_set(b, STORE_JOB, m.job, "there", &err), STATUS_OK);
	before = client_of(b, m.client);
	json = client_of(a, at.client);
	ck_assert_int_eq(merged(b, json, STORE_CLASHES_REFUSED, &m), STATUS_PLAN);
	ck_assert_uint_eq(m.clash_count, 2);
	ck_assert_int_eq(m.clashes[0].level, STORE_JOB);
	ck_assert_str_eq(m.clashes[0].parts, "notes");
	ck_assert_int_eq(m.clashes[1].level, STORE_VARIANT);
	ck_assert_str_eq(m.clashes[1].parts, "rule_set, ground");
	ck_assert_str_eq(m.clashes[1].variant, at.variant_name);
	ck_assert_uint_eq(m.added, 0);
	ck_assert_str_eq(client_of(b, m.client ? m.client : 1), before);
	ck_assert_msg(strstr(err.text, "--beside") && strstr(err.text, "1 more"), "%s", err.text);
	(void)there;
}
END_TEST

START_TEST(clashing_variants_stand_beside_each_other)
{
	struct store_merged m;
	int64_t variant = both(&m), here = m.variant;
	size_t had = variants(b, m.job);
	struct store_place at, place;
	struct plan x, y;
	const char *json;

	ck_assert_int_eq(store_place_of(a, variant, &mem, &at, &err), STATUS_OK);
	change(a, variant, "none");
	ck_assert_int_eq(store_notes_set(a, STORE_VARIANT, variant, "mine", &err), STATUS_OK);
	json = client_of(a, at.client);
	take(b, json, STORE_CLASHES_BESIDE, &m);
	ck_assert_uint_eq(m.beside, 1);
	ck_assert_uint_eq(variants(b, m.job), had + 1);
	ck_assert_int_ne(m.variant, here);
	ck_assert_int_eq(store_place_of(b, m.variant, &mem, &place, &err), STATUS_OK);
	ck_assert_ptr_nonnull(strstr(place.variant_name, " (from other)"));
	ck_assert_int_eq(store_plan(a, variant, &mem, &x, &err), STATUS_OK);
	ck_assert_int_eq(store_plan(b, m.variant, &mem, &y, &err), STATUS_OK);
	ck_assert_ptr_null(plans_differ(&x, &y));
	ck_assert_int_eq(store_plan(b, here, &mem, &y, &err), STATUS_OK);
	ck_assert_str_eq(y.rule_set, "UK guidance");
	/* Again: nothing new. */
	take(b, json, STORE_CLASHES_BESIDE, &m);
	ck_assert_uint_eq(m.added + m.joined, 0);
	ck_assert_uint_eq(variants(b, m.job), had + 1);
}
END_TEST

START_TEST(notes_are_joined_and_never_lost)
{
	struct store_merged m;
	struct store_list list;
	int64_t variant = both(&m);
	struct store_place at;

	ck_assert_int_eq(store_place_of(a, variant, &mem, &at, &err), STATUS_OK);
	/* The longer one that holds the other is taken. */
	ck_assert_int_eq(store_notes_set(a, STORE_CLIENT, at.client, "dog", &err), STATUS_OK);
	take(b, client_of(a, at.client), STORE_CLASHES_REFUSED, &m);
	ck_assert_int_eq(store_notes_set(b, STORE_CLIENT, m.client, "dog\ncat", &err), STATUS_OK);
	take(b, client_of(a, at.client), STORE_CLASHES_REFUSED, &m);
	ck_assert_int_eq(store_notes_set(a, STORE_CLIENT, at.client, "dog\nhen", &err), STATUS_OK);
	ck_assert_int_eq(
	        merged(b, client_of(a, at.client), STORE_CLASHES_REFUSED, &m), STATUS_PLAN);
	ck_assert_msg(strncmp(err.text, "client.notes: ", 14) == 0, "%s", err.text);
	take(b, client_of(a, at.client), STORE_CLASHES_BESIDE, &m);
	ck_assert_uint_eq(m.joined, 1);
	ck_assert_int_eq(store_clients(b, &mem, &list, &err), STATUS_OK);
	ck_assert_str_eq(list.items[0].notes, "dog\ncat\ndog\nhen");
	take(b, client_of(a, at.client), STORE_CLASHES_BESIDE, &m);
	ck_assert_uint_eq(m.joined, 0);
}
END_TEST

START_TEST(what_was_deleted_here_comes_back_when_it_is_taken_in)
{
	struct store_merged m;
	int64_t variant = both(&m);
	struct store_place at, place;
	const char *json, *before = client_of(b, m.client);
	int64_t ids[3] = { m.client, m.job, m.variant };

	ck_assert_int_eq(store_place_of(a, variant, &mem, &at, &err), STATUS_OK);
	json = client_of(a, at.client);
	ck_assert_int_eq(store_delete(b, (enum store_level)_i, ids[_i], &err), STATUS_OK);
	take(b, json, STORE_CLASHES_REFUSED, &m);
	ck_assert_uint_eq(m.back, 1);
	ck_assert_uint_eq(m.added, 0);
	ck_assert_str_eq(client_of(b, m.client), before);
	/* With another plan it clashes, and may stand beside the deleted one. */
	ck_assert_int_eq(store_delete(b, STORE_VARIANT, ids[2], &err), STATUS_OK);
	change(a, variant, "none");
	json = client_of(a, at.client);
	ck_assert_int_eq(merged(b, json, STORE_CLASHES_REFUSED, &m), STATUS_PLAN);
	ck_assert_msg(strstr(err.text, "deleted") != NULL, "%s", err.text);
	take(b, json, STORE_CLASHES_BESIDE, &m);
	ck_assert_uint_eq(m.beside, 1);
	ck_assert_int_eq(store_undelete(b, STORE_VARIANT, ids[2], &err), STATUS_OK);
	ck_assert_int_eq(store_place_of(b, ids[2], &mem, &place, &err), STATUS_OK);
}
END_TEST

/* A variant's UUID is what counts, wherever it stands here; what it stands in comes back. */
START_TEST(a_variant_is_met_in_the_job_it_stands_in)
{
	struct store_merged m;
	int64_t variant = both(&m), client, job;
	struct store_place at;
	const char *json;

	ck_assert_int_eq(store_place_of(a, variant, &mem, &at, &err), STATUS_OK);
	ck_assert_int_eq(store_client_add(b, "Elsewhere", &client, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(b, client, "Moved", &job, &err), STATUS_OK);
	change_file(program_path("b.slabs"), "UPDATE variants SET job = 2 WHERE id = 1");
	ck_assert_int_eq(job, 2);
	ck_assert_int_eq(m.variant, 1);
	ck_assert_int_eq(store_delete(b, STORE_CLIENT, client, &err), STATUS_OK);
	json = client_of(a, at.client);
	take(b, json, STORE_CLASHES_REFUSED, &m);
	ck_assert_uint_eq(m.back, 1);
	ck_assert_uint_eq(m.added, 0);
	ck_assert_int_eq(store_place_of(b, 1, &mem, &at, &err), STATUS_OK);
	ck_assert_str_eq(at.client_name, "Elsewhere");
	change(a, variant, "none");
	ck_assert_int_eq(store_place_of(a, variant, &mem, &at, &err), STATUS_OK);
	ck_assert_int_eq(
	        merged(b, client_of(a, at.client), STORE_CLASHES_REFUSED, &m), STATUS_PLAN);
	ck_assert_str_eq(m.clashes[0].client, "Elsewhere");
	ck_assert_str_eq(m.clashes[0].job, "Moved");
}
END_TEST

/* --- two laptops, at random --- */

/* Every plan of a client, and every note. */
struct content {
	struct plan plans[64];
	const char *notes[96];
	size_t plan_count, note_count;
};

static void gather_job(struct store *s, int64_t job, struct content *c)
{
	struct store_list list;

	ck_assert_int_eq(
	        store_entries(s, STORE_VARIANT, job, STORE_WITH_ARCHIVED, &mem, &list, &err),
	        STATUS_OK);
	for (size_t i = 0; i < list.count; i++) {
		ck_assert_uint_lt(c->plan_count, 64);
		ck_assert_int_eq(
		        store_plan(s, list.items[i].id, &mem, &c->plans[c->plan_count++], &err),
		        STATUS_OK);
		c->notes[c->note_count++] = list.items[i].notes;
	}
}

static void gather(struct store *s, struct content *c)
{
	struct store_list clients, jobs;

	*c = (struct content){ 0 };
	ck_assert_int_eq(
	        store_entries(s, STORE_CLIENT, 0, STORE_WITH_ARCHIVED, &mem, &clients, &err),
	        STATUS_OK);
	for (size_t i = 0; i < clients.count; i++) {
		c->notes[c->note_count++] = clients.items[i].notes;
		ck_assert_int_eq(store_entries(s, STORE_JOB, clients.items[i].id,
		                         STORE_WITH_ARCHIVED, &mem, &jobs, &err),
		        STATUS_OK);
		for (size_t k = 0; k < jobs.count; k++) {
			c->notes[c->note_count++] = jobs.items[k].notes;
			gather_job(s, jobs.items[k].id, c);
		}
	}
}

/* All that is in `less` is in `more`. */
static void holds(const struct content *more, const struct content *less)
{
	for (size_t i = 0; i < less->plan_count; i++) {
		bool found = false;

		for (size_t k = 0; !found && k < more->plan_count; k++)
			found = !plans_differ(&more->plans[k], &less->plans[i]);
		ck_assert_msg(found, "plan %zu (%s) is lost", i, less->plans[i].name);
	}
	for (size_t i = 0; i < less->note_count; i++) {
		bool found = false;

		for (size_t k = 0; !found && k < more->note_count; k++)
			found = strstr(more->notes[k], less->notes[i]) != NULL;
		ck_assert_msg(found, "the note \"%s\" is lost", less->notes[i]);
	}
}

static int64_t any(struct chance *d, struct store *s, enum store_level level, int64_t parent)
{
	struct store_list list;

	ck_assert_int_eq(
	        store_entries(s, level, parent, STORE_WITH_ARCHIVED, &mem, &list, &err), STATUS_OK);
	return list.count ? list.items[chance_int(d, 0, (int64_t)list.count - 1)].id : 0;
}

/* One change of any sort; names may be refused, which is no change. */
static void disturb(struct chance *d, struct store *s)
{
	int64_t client = any(d, s, STORE_CLIENT, 0), job, variant, id;
	char text[40];
	struct plan plan;
	struct edit e;

	snprintf(text, sizeof text, "note %llx", (unsigned long long)chance_next(d));
	job = any(d, s, STORE_JOB, client);
	variant = any(d, s, STORE_VARIANT, job);
	switch (chance_int(d, 0, 8)) {
	case 0:
		store_variant_add(s, job, text + 12, &id, &err);
		break;
	case 1:
		store_job_add(s, client, text + 14, &id, &err);
		break;
	case 2:
		store_notes_set(s, (enum store_level)chance_int(d, 0, 1),
		        chance_int(d, 0, 1) ? client : job, text, &err);
		break;
	case 3:
		if (variant)
			store_notes_set(s, STORE_VARIANT, variant, text, &err);
		break;
	case 4:
		if (variant)
			store_variant_rename(s, variant, text + 16, &err);
		break;
	case 5:
		store_archive(s, STORE_JOB, job, chance_int(d, 0, 1) != 0, &err);
		break;
	default:
		if (!variant)
			break;
		ck_assert_int_eq(store_plan(s, variant, &mem, &plan, &err), STATUS_OK);
		random_edit(d, &mem, &plan, &e);
		store_edit(s, variant, &e, &err); /* may be refused: no change */
	}
}

static void take_all(struct store *to, struct store *from)
{
	struct store_list clients;
	struct store_merged m;

	ck_assert_int_eq(
	        store_entries(from, STORE_CLIENT, 0, STORE_WITH_ARCHIVED, &mem, &clients, &err),
	        STATUS_OK);
	for (size_t i = 0; i < clients.count; i++)
		take(to, client_of(from, clients.items[i].id), STORE_CLASHES_BESIDE, &m);
}

static void drift_apart(struct chance *d)
{
	static struct content in_a, in_b, now;
	struct store_merged m;
	struct store_place at;
	int64_t variant = imported(a, full_document);

	ck_assert_int_eq(store_place_of(a, variant, &mem, &at, &err), STATUS_OK);
	imported(a, beside_document);
	take(b, client_of(a, at.client), STORE_CLASHES_REFUSED, &m);
	for (int64_t n = chance_int(d, 1, 25); n > 0; n--)
		disturb(d, chance_int(d, 0, 1) ? a : b);
	gather(a, &in_a);
	gather(b, &in_b);
	take_all(a, b);
	take_all(b, a);
	gather(a, &now);
	holds(&now, &in_a);
	holds(&now, &in_b);
	gather(b, &now);
	holds(&now, &in_a);
	holds(&now, &in_b);
}

START_TEST(stores_that_drifted_apart_hold_all_of_both_after_an_exchange)
{
	uint64_t seed = chance_seed("merge", 20261125);

	teardown();
	for (int i = 0; i < 40 / ONE_OF; i++) {
		struct chance d = chance_new(seed + (uint64_t)i);

		setup();
		drift_apart(&d);
		teardown();
	}
	setup();
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("merge");

	tcase_add_checked_fixture(t, setup, teardown);
	tcase_set_timeout(t, 240);
	tcase_add_test(t, a_client_goes_out_and_comes_in_whole);
	tcase_add_test(t, a_document_has_either_one_job_or_jobs);
	tcase_add_test(t, all_clashes_are_told_with_what_differs_and_nothing_is_taken_in);
	tcase_add_test(t, clashing_variants_stand_beside_each_other);
	tcase_add_test(t, notes_are_joined_and_never_lost);
	tcase_add_loop_test(t, what_was_deleted_here_comes_back_when_it_is_taken_in, 0, 3);
	tcase_add_test(t, a_variant_is_met_in_the_job_it_stands_in);
	tcase_add_test(t, stores_that_drifted_apart_hold_all_of_both_after_an_exchange);
	return suite_run("merge", t);
}
