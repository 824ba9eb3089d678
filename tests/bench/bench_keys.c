/* bench_keys.c - from a key to the finished frame, in the real planner on a pseudo-terminal.
 *
 * A job of about 500 m2 with 20 corners is imported, once with its slabs along the house on a
 * screen of 200 by 60, where lines show them, and once turned by 45 degrees on one of 300 by 90,
 * where eight dots a column do; and once with four planes that fall to the middle, at Falls with
 * the areas drawn. Keys of four kinds are sent one by one, and the time is taken from the writing
 * of the key to the arrival of the last byte of the frame. A frame has ended when nothing has come
 * for QUIET_MS. Prints the median and the 99th of 100 for each kind. */
#include "screen/term.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { KEYS = 100, QUIET_MS = 30, LIMIT_MS = 2000, JOBS = 2000 };

struct job {
	int rows, cols, rotation;
	bool falls; /* four planes, and measured at Falls */
};

/* Planes that fall to 14 m, 10 m from all four sides. */
static const char four_planes[] =
        "{\"x\":14000,\"y\":10000,\"level\":-150,\"toward\":0,\"fall\":15},"
        "{\"x\":14000,\"y\":10000,\"level\":-150,\"toward\":90,\"fall\":15},"
        "{\"x\":14000,\"y\":10000,\"level\":-150,\"toward\":180,\"fall\":15},"
        "{\"x\":14000,\"y\":10000,\"level\":-150,\"toward\":270,\"fall\":15}";

/* A comb of steps: 20 corners, x in mm up to 29 m, about 500 m2. */
static const int corners[20][2] = { { 0, 0 }, { 29000, 0 }, { 29000, 15300 }, { 26100, 15300 },
	{ 26100, 17000 }, { 23400, 17000 }, { 23400, 18100 }, { 20050, 18100 }, { 20050, 19200 },
	{ 17000, 19200 }, { 17000, 20150 }, { 13900, 20150 }, { 13900, 19300 }, { 10100, 19300 },
	{ 10100, 18250 }, { 6900, 18250 }, { 6900, 16900 }, { 3050, 16900 }, { 3050, 15100 },
	{ 0, 15100 } };

static void write_plan(const char *path, const struct job *job)
{
	FILE *f = fopen(path, "w");
	double area2 = 0;

	if (!f) {
		perror(path);
		exit(EXIT_FAILURE);
	}
	fprintf(f, "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"Bench\"},"
	           "\"job\":{\"title\":\"Large "
	           "yard\"},\"variants\":[{\"name\":\"A\",\"outline\":{\"nodes\":[");
	for (int i = 0; i < 20; i++) {
		const int *a = corners[i], *b = corners[(i + 1) % 20];

		area2 += (double)a[0] * b[1] - (double)b[0] * a[1];
		fprintf(f, "%s{\"x\":%d,\"y\":%d,\"kind\":\"%s\"}", i ? "," : "", a[0], a[1],
		        i ? "kerb" : "house wall");
	}
	fprintf(f,
	        "],\"openings\":[]},\"laying\":{\"slab\":{\"length\":600,\"width\":300,"
	        "\"thickness\":50,\"joint\":3,"
	        "\"size\":\"coordinating\",\"directional\":false},\"bond\":\"stretcher\","
	        "\"offset\":0.5,"
	        "\"rotation\":%d,\"start\":{\"x\":110,\"y\":70}},"
	        "\"surface\":{\"envelope\":\"max\",\"planes\":[%s]}}]}\n",
	        job->rotation,
	        job->falls ? four_planes
	                   : "{\"x\":0,\"y\":0,\"level\":0,\"toward\":90,\"fall\":15}");
	fclose(f);
	printf("  job of %.0f m2, 20 corners, slabs 600 x 300, turned by %d, %d x %d screen\n",
	        area2 / 2e6, job->rotation, job->cols, job->rows);
}

static void import(const char *program, const char *store, const char *plan)
{
	char command[600];

	snprintf(command, sizeof command, "'%s' --store '%s' import '%s' >/dev/null", program,
	        store, plan);
	if (system(command) != 0) {
		fprintf(stderr, "bench_keys: the job could not be imported\n");
		exit(EXIT_FAILURE);
	}
}

static int by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

/* Sends one key and gives the milliseconds until its frame was complete. */
static double press(struct term *t, VTermKey key, const char *text)
{
	long long start = term_now_ns(), end;

	if (text)
		term_type(t, text);
	else
		term_key(t, key, VTERM_MOD_NONE);
	end = term_drain(t, QUIET_MS, LIMIT_MS);
	if (!end) {
		fprintf(stderr, "bench_keys: a key drew nothing\n");
		exit(EXIT_FAILURE);
	}
	return (double)(end - start) / 1e6;
}

static double report(const char *name, double *ms)
{
	qsort(ms, KEYS, sizeof *ms, by_size);
	printf("  %-34s p50 %6.2f ms   p99 %6.2f ms\n", name, ms[KEYS / 2 - 1],
	        ms[KEYS * 99 / 100 - 1]);
	return ms[KEYS * 99 / 100 - 1];
}

static void move_cursor(struct term *t, double *ms)
{
	for (int i = 0; i < KEYS; i++)
		ms[i] = press(t, i % 20 < 10 ? VTERM_KEY_RIGHT : VTERM_KEY_LEFT, NULL);
}

static void nudge(struct term *t, double *ms)
{
	static const VTermKey ways[] = { VTERM_KEY_RIGHT, VTERM_KEY_UP, VTERM_KEY_LEFT,
		VTERM_KEY_DOWN };

	press(t, 0, "m");
	for (int i = 0; i < KEYS; i++)
		ms[i] = press(t, ways[i / 5 % 4], NULL);
	press(t, VTERM_KEY_ENTER, NULL);
}

/* Picks a corner up, carries it a cell, and takes the time of putting it down. */
static void move_corner(struct term *t, double *ms)
{
	for (int i = 0; i < KEYS; i++) {
		press(t, 0, "m");
		press(t, i % 2 ? VTERM_KEY_DOWN : VTERM_KEY_UP, NULL);
		ms[i] = press(t, VTERM_KEY_ENTER, NULL);
	}
}

/* Types a level at the cursor, and takes the time of taking it. */
static void set_level(struct term *t, double *ms)
{
	for (int i = 0; i < KEYS; i++) {
		press(t, 0, "v");
		press(t, 0, i % 2 ? "1" : "2");
		ms[i] = press(t, VTERM_KEY_ENTER, NULL);
	}
}

static void change_stage(struct term *t, double *ms)
{
	for (int i = 0; i < KEYS; i++) {
		long long start = term_now_ns();

		term_key(t, VTERM_KEY_TAB, i % 2 ? VTERM_MOD_SHIFT : VTERM_MOD_NONE);
		ms[i] = (double)(term_drain(t, QUIET_MS, LIMIT_MS) - start) / 1e6;
	}
}

static void stage(struct term *t, VTermModifier mod, int times, const char *name)
{
	for (int i = 0; i < times; i++)
		term_key(t, VTERM_KEY_TAB, mod);
	if (!term_wait_text(t, name))
		exit(EXIT_FAILURE);
	term_drain(t, 200, 500);
}

static void at_laying(struct term *t, double *ms)
{
	stage(t, VTERM_MOD_NONE, 2, "[Laying]");
	move_cursor(t, ms);
	report("cursor over the slabs", ms);
	change_stage(t, ms);
	report("stage changed", ms);
	nudge(t, ms);
	report("start line nudged", ms);
	stage(t, VTERM_MOD_SHIFT, 2, "[Outline]");
	term_type(t, "n");
	term_drain(t, 100, 500);
	move_corner(t, ms);
	report("corner put down", ms);
}

static void at_falls(struct term *t, double *ms)
{
	stage(t, VTERM_MOD_NONE, 1, "[Falls]");
	press(t, 0, "a");
	move_cursor(t, ms);
	report("cursor at Falls, areas drawn", ms);
	set_level(t, ms);
	report("level set, areas drawn", ms);
}

static void measure(const struct job *job)
{
	char folder[] = "/tmp/slabwright-bench-XXXXXX", store[64], plan[64], rest[64];
	const char *program = getenv("SLABWRIGHT"), *argv[] = { program, "--store", store, NULL };
	double ms[KEYS];
	struct term *t;

	if (!program || !mkdtemp(folder)) {
		fprintf(stderr, "bench_keys: SLABWRIGHT must name the program to measure\n");
		exit(EXIT_FAILURE);
	}
	snprintf(store, sizeof store, "%s/jobs.slabs", folder);
	snprintf(plan, sizeof plan, "%s/plan.json", folder);
	write_plan(plan, job);
	import(program, store, plan);
	t = term_start(job->rows, job->cols, argv);
	if (!term_wait_text(t, "Clients"))
		exit(EXIT_FAILURE);
	press(t, VTERM_KEY_ENTER, NULL);
	press(t, VTERM_KEY_ENTER, NULL);
	if (!term_wait_text(t, "[Outline]"))
		exit(EXIT_FAILURE);
	if (job->falls)
		at_falls(t, ms);
	else
		at_laying(t, ms);
	term_type(t, "q");
	term_wait_exit(t);
	term_stop(t);
	for (const char *const *s = (const char *const[]){ "", "-wal", "-shm", NULL }; *s; s++) {
		snprintf(rest, sizeof rest, "%s%s", store, *s);
		unlink(rest);
	}
	unlink(plan);
	rmdir(folder);
}

/* Narrowing a list of many jobs: letters typed and taken back. */
static void measure_list(void)
{
	char folder[] = "/tmp/slabwright-bench-XXXXXX", store[64], plan[64], rest[64];
	const char *program = getenv("SLABWRIGHT"), *argv[] = { program, "--store", store, NULL };
	static const char letters[] = "terrace 1";
	double ms[KEYS];
	struct term *t;
	FILE *f;

	if (!mkdtemp(folder))
		exit(EXIT_FAILURE);
	snprintf(store, sizeof store, "%s/jobs.slabs", folder);
	snprintf(plan, sizeof plan, "%s/plan.json", folder);
	if (!(f = fopen(plan, "w")))
		exit(EXIT_FAILURE);
	fputs("{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"Bench\"},"
	      "\"jobs\":[",
	        f);
	for (int i = 0; i < JOBS; i++)
		fprintf(f,
		        "%s{\"title\":\"%s %d\",\"notes\":\"two dogs, ring twice, gate 0.9 m\","
		        "\"variants\":[{\"name\":\"A\"}]}",
		        i ? "," : "", i % 2 ? "Terrace" : "Path", i);
	fputs("]}", f);
	fclose(f);
	import(program, store, plan);
	printf("  list of %d jobs with notes, 200 x 60 screen\n", JOBS);
	t = term_start(60, 200, argv);
	if (!term_wait_text(t, "Clients"))
		exit(EXIT_FAILURE);
	press(t, VTERM_KEY_ENTER, NULL);
	if (!term_wait_text(t, "Jobs of"))
		exit(EXIT_FAILURE);
	for (int i = 0; i < KEYS; i++)
		ms[i] = press(t, i % 20 < 10 ? VTERM_KEY_DOWN : VTERM_KEY_UP, NULL);
	report("row moved", ms);
	press(t, 0, "f");
	for (int i = 0; i < KEYS; i++) {
		char letter[2] = { letters[i % 18 % 9], 0 };

		ms[i] = i % 18 < 9 ? press(t, 0, letter) : press(t, VTERM_KEY_BACKSPACE, NULL);
	}
	report("letter typed or taken back", ms);
	press(t, VTERM_KEY_ESCAPE, NULL);
	term_type(t, "q");
	term_wait_exit(t);
	term_stop(t);
	for (const char *const *s = (const char *const[]){ "", "-wal", "-shm", NULL }; *s; s++) {
		snprintf(rest, sizeof rest, "%s%s", store, *s);
		unlink(rest);
	}
	unlink(plan);
	rmdir(folder);
}

int main(void)
{
	static const struct job jobs[] = { { 60, 200, 0, false }, { 90, 300, 45, false },
		{ 60, 200, 0, true } };

	printf("key to finished frame:\n");
	for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++)
		measure(&jobs[i]);
	measure_list();
	return EXIT_SUCCESS;
}
