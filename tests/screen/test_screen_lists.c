/* test_screen_lists.c - clients, jobs and variants: narrowing, notes, archive, deleting, copies,
 * comparing, and documents for another laptop. */
#include "screen/drive.h"
#include "slabwright/store.h"
#include "suite.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static struct drive d;

/* Clients with one job each, which has a variant; "Oak Lane" has three jobs more. */
static void fill(const char *path)
{
	static const char *const names[] = { "Ash Court", "Birch", "Oak Lane", "Oakfield",
		"Zo\xC3\x8B" };
	struct error err = { 0 };
	struct store *s;
	int64_t client, job, variant;

	ck_assert_msg(store_open(&s, path, STORE_MAY_CREATE, getenv("SHARE"), &err) == STATUS_OK,
	        "%s", err.text);
	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		ck_assert_int_eq(store_client_add(s, names[i], &client, &err), STATUS_OK);
		ck_assert_int_eq(store_job_add(s, client, "Terrace", &job, &err), STATUS_OK);
		ck_assert_int_eq(store_variant_add(s, job, "A", &variant, &err), STATUS_OK);
		if (i == 1)
			ck_assert_int_eq(store_notes_set(s, STORE_CLIENT, client,
			                         "two dogs\x1B[2J, ring twice", &err),
			        STATUS_OK);
	}
	store_close(s);
}

static void setup(void)
{
	drive_begin(&d);
	fill(d.store);
	drive_start(&d, 24, 80);
	drive_sees(&d, "Ash Court");
}

static void teardown(void)
{
	drive_end(&d);
}

START_TEST(typing_narrows_the_rows_and_backspace_widens_them)
{
	drive_keys(&d, "f oak");
	drive_sees(&d, "with \"oak\": 2 of 5");
	drive_misses(&d, "Ash Court");
	drive_keys(&d, "f");
	drive_sees(&d, "with \"oakf\": 1 of 5");
	drive_keys(&d, "q");
	drive_sees(&d, "No row has \"oakfq\" in it");
	drive_keys(&d, "Back Back");
	drive_sees(&d, "with \"oak\": 2 of 5");
	drive_sees(&d, "Oak Lane");
	/* Enter keeps the rows, and letters are keys again. */
	drive_keys(&d, "Down Enter r");
	drive_sees(&d, "New name: Oakfield");
	drive_keys(&d, "Esc");
	drive_sees(&d, "Left as it was");
	drive_keys(&d, "Esc");
	drive_sees(&d, "Ash Court");
	drive_sees(&d, "> Oakfield");
	/* In notes too, and whatever the case of any letter. */
	drive_keys(&d, "f TWICE");
	drive_sees(&d, "> Birch");
	drive_keys(&d, "Esc f zO");
	drive_sees(&d, "1 of 5");
	drive_keys(&d, "Enter Enter");
	drive_sees(&d, "Jobs of Zo");
}
END_TEST

START_TEST(notes_stand_beside_the_list_with_control_characters_as_marks)
{
	drive_keys(&d, "Down");
	drive_sees(&d, "two dogs\u241B[2J");
	drive_keys(&d, "Up n gate_is_0.9_m Enter");
	drive_sees(&d, "gate is 0.9 m");
	drive_keys(&d, "n ,_locked Enter");
	drive_sees(&d, "gate is 0.9 m, locked");
	drive_quit(&d);
	drive_start(&d, 24, 80);
	drive_sees(&d, "gate is 0.9 m, locked");
}
END_TEST

START_TEST(what_is_archived_is_hidden_till_it_is_asked_for)
{
	drive_keys(&d, "z");
	drive_sees(&d, "\"Ash Court\" is archived");
	drive_keys(&d, "Down");
	drive_misses(&d, "Ash Court");
	drive_keys(&d, "s");
	drive_sees(&d, "Clients, archived ones too");
	drive_sees(&d, "archived   1 job");
	drive_keys(&d, "End z");
	drive_sees(&d, "\"Ash Court\" is in the list again");
	drive_keys(&d, "s");
	drive_sees(&d, "Ash Court");
}
END_TEST

START_TEST(deleting_asks_and_can_be_undone)
{
	drive_keys(&d, "d");
	drive_sees(&d, "Delete the client \"Ash Court\" with all jobs?");
	drive_keys(&d, "Enter");
	drive_sees(&d, "Left as it was");
	drive_sees(&d, "Ash Court");
	drive_keys(&d, "d Down Enter");
	drive_sees(&d, "\"Ash Court\" is deleted");
	drive_keys(&d, "Down");
	drive_misses(&d, "Ash Court");
	drive_keys(&d, "b");
	drive_sees(&d, "Bring back");
	drive_keys(&d, "Enter");
	drive_sees(&d, "\"Ash Court\" is back");
	drive_sees(&d, "> Ash Court");
	drive_keys(&d, "b");
	drive_sees(&d, "No client was deleted here");
}
END_TEST

START_TEST(the_open_variant_may_be_deleted)
{
	drive_keys(&d, "Enter Enter");
	drive_sees(&d, "[Outline]");
	drive_keys(&d, "@Variants d Down Enter");
	drive_sees(&d, "\"A\" is deleted");
	drive_sees(&d, "This job has no variant yet");
	drive_keys(&d, "Tab");
	drive_sees(&d, "No variant is open");
	drive_keys(&d, "b Enter");
	drive_sees(&d, "\"A\" is back");
	drive_keys(&d, "Enter");
	drive_sees(&d, "[Outline]");
}
END_TEST

START_TEST(jobs_and_variants_are_copied)
{
	drive_keys(&d, "Enter");
	drive_sees(&d, "Jobs of Ash Court");
	drive_keys(&d, "c Path Enter");
	drive_sees(&d, "> Path");
	drive_sees(&d, "The copy has all variants");
	drive_keys(&d, "Enter");
	drive_sees(&d, "[Outline]");
	drive_keys(&d, "@Variants m f birch Enter Enter");
	drive_sees(&d, "Birch / Terrace");
	drive_keys(&d, "Enter");
	drive_sees(&d, "There is a variant \"A\" in this job already");
	drive_keys(&d, "Delete B Enter");
	drive_sees(&d, "Copied");
}
END_TEST

START_TEST(any_number_of_variants_stand_side_by_side)
{
	drive_keys(&d, "Enter Enter");
	drive_sees(&d, "[Outline]");
	for (int i = 0; i < 5; i++) {
		char keys[40];

		snprintf(keys, sizeof keys, "c Copy_%d Enter", i + 1);
		drive_keys(&d, "@Variants");
		drive_keys(&d, keys);
		drive_sees(&d, "The copy is open");
	}
	drive_keys(&d, "Enter");
	drive_sees(&d, "[Outline]");
	drive_keys(&d, "r 6,2_x_3 Enter");
	drive_figure(&d, "area", "18.60");
	drive_keys(&d, "@Variants =");
	drive_sees(&d, "from 1 of 6");
	drive_sees(&d, "Copy 2");
	drive_misses(&d, "Copy 4");
	drive_keys(&d, "Right Right Right Right Right Right");
	drive_sees(&d, "from 4 of 6");
	drive_sees(&d, "Copy 4");
	drive_misses(&d, "Copy 1");
	drive_figure(&d, "Area", "18.60");
	drive_sees(&d, "\u2260 Area");
	drive_keys(&d, "Esc f copy Enter =");
	drive_sees(&d, "from 1 of 5");
}
END_TEST

START_TEST(two_laptops_exchange_a_client)
{
	char path[120], keys[200];

	snprintf(path, sizeof path, "%s/out.json", d.folder);
	snprintf(keys, sizeof keys, "x Delete %s Enter", path);
	drive_keys(&d, keys);
	drive_sees(&d, "\"Ash Court\" is written to");
	ck_assert_int_eq(access(path, R_OK), 0);
	/* Again: it asks before it writes over it. */
	drive_keys(&d, keys);
	drive_sees(&d, "There is a file of that name");
	drive_keys(&d, "Enter");
	drive_sees(&d, "Nothing was written");
	snprintf(keys, sizeof keys, "i Delete %s Enter", path);
	drive_keys(&d, keys);
	drive_sees(&d, "Nothing new");
	/* The one here goes on; then the document differs from it. */
	drive_keys(&d, "Enter Enter");
	drive_sees(&d, "[Outline]");
	drive_keys(&d, "r 6,2_x_3 Enter");
	drive_figure(&d, "area", "18.60");
	drive_keys(&d, "@Variants o Esc");
	drive_sees(&d, "Clients");
	drive_keys(&d, keys);
	drive_sees(&d, "1 differs from what is here");
	drive_sees(&d, "differs: outline");
	drive_keys(&d, "f both Enter Enter");
	drive_sees(&d, "Taken in: 1 variant");
	drive_keys(&d, "Enter Enter");
	drive_sees(&d, "[Variants]");
	drive_sees(&d, "A (from other)");
	drive_keys(&d, "o Esc i Delete /no/such/file Enter");
	drive_sees(&d, "cannot be read");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("lists");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, typing_narrows_the_rows_and_backspace_widens_them);
	tcase_add_test(tc, notes_stand_beside_the_list_with_control_characters_as_marks);
	tcase_add_test(tc, what_is_archived_is_hidden_till_it_is_asked_for);
	tcase_add_test(tc, deleting_asks_and_can_be_undone);
	tcase_add_test(tc, the_open_variant_may_be_deleted);
	tcase_add_test(tc, jobs_and_variants_are_copied);
	tcase_add_test(tc, any_number_of_variants_stand_side_by_side);
	tcase_add_test(tc, two_laptops_exchange_a_client);
	return suite_run("screen lists", tc);
}
