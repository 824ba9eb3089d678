/* Killing the program in the middle of its work: every acknowledged edit is there, nothing is half
 * written.
 *
 * A child applies random edits, undoes and redoes, and tells its parent after each that the store
 * has taken it. The parent kills it at a random moment, opens the store, and compares with the same
 * steps done in memory. */
#include "program.h"
#include "suite.h"
#include "unit/stores.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { KILLS = 50, STEPS_MOST = 3000, LONGEST_US = 40000 };

static void setup(void)
{
	program_folder();
}

static uint64_t seed_of_run(void)
{
	const char *given = getenv("SEED");
	uint64_t seed = given ? strtoull(given, NULL, 10) : (uint64_t)time(NULL);

	printf("SEED=%llu\n", (unsigned long long)seed);
	fflush(stdout);
	return seed;
}

/* The edits of a run as the child makes them and the parent repeats them: from the seed alone. The
 * plan in memory follows; `done` counts edits that stand, `undone` those that can be repeated. */
struct run {
	struct chance chance;
	struct arena mem;
	struct plan plan;
	struct edit edits[STEPS_MOST], inverses[STEPS_MOST];
	size_t done, undone;
};

enum step { STEP_EDIT, STEP_UNDO, STEP_REDO };

static enum step next_step(struct run *r)
{
	int64_t what = chance_int(&r->chance, 0, 9);

	if (what == 0 && r->done)
		return STEP_UNDO;
	return what == 1 && r->undone ? STEP_REDO : STEP_EDIT;
}

/* Does the step in memory. */
static void step_model(struct run *r, enum step step)
{
	struct error err = { 0 };
	enum status st;

	if (step == STEP_EDIT) {
		random_edit(&r->chance, &r->mem, &r->plan, &r->edits[r->done]);
		st = edit_apply(&r->mem, &r->plan, &r->edits[r->done], &r->inverses[r->done], &err);
		r->done++;
		r->undone = 0;
	} else if (step == STEP_UNDO) {
		r->done--;
		st = edit_apply(&r->mem, &r->plan, &r->inverses[r->done], NULL, &err);
		r->undone++;
	} else {
		st = edit_apply(&r->mem, &r->plan, &r->edits[r->done], NULL, &err);
		r->done++;
		r->undone--;
	}
	ck_assert_msg(st == STATUS_OK, "%s", err.text);
}

/* Does the step that the model has just done in the store. */
static enum status step_store(
        struct run *r, enum step step, struct store *s, int64_t variant, struct error *err)
{
	char label[80];
	bool done = true;
	enum status st;

	if (step == STEP_EDIT)
		return store_edit(s, variant, &r->edits[r->done - 1], err);
	st = step == STEP_UNDO ? store_undo(s, variant, &done, label, err)
	                       : store_redo(s, variant, &done, label, err);
	return st == STATUS_OK && !done ? STATUS_PLAN : st;
}

static void child(struct run *r, const char *path, int64_t variant, int to)
{
	struct store *s;
	struct error err = { 0 };

	if (store_open(&s, path, STORE_MUST_EXIST, NULL, &err) != STATUS_OK)
		_exit(10);
	for (uint32_t i = 1; i <= STEPS_MOST; i++) {
		enum step step = next_step(r);

		step_model(r, step);
		if (step_store(r, step, s, variant, &err) != STATUS_OK)
			_exit(11);
		if (write(to, &i, sizeof i) != (ssize_t)sizeof i)
			_exit(12);
	}
	_exit(0);
}

/* Kills the child after a while; the number of the last step that it said was done. */
static uint32_t kill_after(pid_t pid, int from, int64_t us)
{
	struct timespec pause = { 0, us * 1000 };
	uint32_t last = 0, n;
	ssize_t got;
	int status;

	nanosleep(&pause, NULL);
	ck_assert_int_eq(kill(pid, SIGKILL), 0);
	while ((got = read(from, &n, sizeof n)) == (ssize_t)sizeof n || (got < 0 && errno == EINTR))
		if (got > 0)
			last = n;
	ck_assert_int_eq(waitpid(pid, &status, 0), pid);
	ck_assert_msg(WIFSIGNALED(status) || WEXITSTATUS(status) == 0, "the child ended with %d",
	        WEXITSTATUS(status));
	return last;
}

/* Whether the store holds what the model holds, undo rows and all. */
static bool agrees(const struct run *r, struct store *s, int64_t variant)
{
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct plan plan;
	int64_t undo, redo;
	bool same;

	ck_assert_msg(store_plan(s, variant, &mem, &plan, &err) == STATUS_OK, "%s", err.text);
	ck_assert_int_eq(store_undo_depth(s, variant, &undo, &redo, &err), STATUS_OK);
	same = !plans_differ(&plan, &r->plan) && undo == (int64_t)r->done &&
	       redo == (int64_t)r->undone;
	arena_free(&mem);
	return same;
}

static struct run *run_begin(uint64_t seed)
{
	struct run *r = calloc(1, sizeof *r);

	ck_assert_ptr_nonnull(r);
	r->chance.state = seed;
	plan_init(&r->plan);
	return r;
}

static void run_end(struct run *r)
{
	arena_free(&r->mem);
	free(r);
}

/* A variant to work on; no handle stays open over the fork. */
static int64_t new_variant(int round)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t client, job, variant;
	char name[40];

	snprintf(name, sizeof name, "C%d", round);
	ck_assert_int_eq(store_client_add(s, name, &client, &err), STATUS_OK);
	ck_assert_int_eq(store_job_add(s, client, "J", &job, &err), STATUS_OK);
	ck_assert_int_eq(store_variant_add(s, job, "A", &variant, &err), STATUS_OK);
	store_close(s);
	return variant;
}

/* Opens the store after the kill and compares; the model has not moved yet. */
static void compare(struct run *r, int64_t variant, uint32_t acknowledged)
{
	struct store *s = store_in_folder("p.slabs");

	for (uint32_t i = 0; i < acknowledged; i++)
		step_model(r, next_step(r));
	/* The last one may have been taken just before the kill, and not been told any more. */
	if (!agrees(r, s, variant)) {
		step_model(r, next_step(r));
		ck_assert_msg(agrees(r, s, variant),
		        "after %u acknowledged steps the store holds something else", acknowledged);
	}
	store_close(s);
	ck_assert_int_eq(ask_file(program_path("p.slabs"),
	                         "SELECT integrity_check = 'ok' FROM pragma_integrity_check"),
	        1);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs"), "SELECT count(*) FROM pragma_foreign_key_check"),
	        0);
}

START_TEST(an_acknowledged_edit_survives_a_killed_program)
{
	struct chance d = { .state = seed_of_run() };
	char path[300];
	uint32_t steps = 0;

	snprintf(path, sizeof path, "%s", program_path("p.slabs"));
	for (int round = 0; round < KILLS; round++) {
		uint64_t seed = chance_next(&d);
		struct run *r = run_begin(seed);
		int64_t variant = new_variant(round);
		int ends[2];
		uint32_t last;
		pid_t pid;

		ck_assert_int_eq(pipe(ends), 0);
		pid = fork();
		ck_assert_int_ge(pid, 0);
		if (pid == 0) {
			close(ends[0]);
			child(r, path, variant, ends[1]);
		}
		close(ends[1]);
		last = kill_after(pid, ends[0], chance_int(&d, 0, LONGEST_US));
		close(ends[0]);
		compare(r, variant, last);
		run_end(r);
		steps += last;
	}
	printf("%d kills, %u acknowledged steps\n", KILLS, steps);
	ck_assert_uint_gt(steps, KILLS); /* else nothing was tried */
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("kill");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 300);
	tcase_add_test(t, an_acknowledged_edit_survives_a_killed_program);
	return suite_run("kill", t);
}
