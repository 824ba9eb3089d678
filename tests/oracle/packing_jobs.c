/* packing_jobs.c - see packing_jobs.h. */
#include "packing_jobs.h"

#include "slabwright/units.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_JOBS = 512, CLASSES = 10, CLASS_JOBS = 50, GCUTS = 12 };

static FILE *open_data(const char *name)
{
	char path[200];
	FILE *f;

	snprintf(path, sizeof path, "tests/data/packing/%s", name);
	f = fopen(path, "r");
	if (!f) {
		perror(path);
		exit(1);
	}
	return f;
}

/* The first numbers of the next line that has any; how many. */
static int read_numbers(FILE *f, long *numbers, int most)
{
	char line[300], *at, *end;
	int n = 0;

	while (n == 0 && fgets(line, sizeof line, f))
		for (at = line; n < most; at = end) {
			long number = strtol(at, &end, 10);

			if (end == at)
				break;
			numbers[n++] = number;
		}
	return n;
}

static void set_stock(struct packing_job *j, long length, long width)
{
	j->stock = (struct guillotine_stock){ length * UM_PER_MM, width * UM_PER_MM, 0 };
}

static void read_pieces(struct arena *mem, FILE *f, struct packing_job *j, size_t count)
{
	j->count = count;
	j->pieces = arena_alloc(mem, count, sizeof *j->pieces);
	for (size_t i = 0; i < count; i++) {
		long n[3] = { 0, 0, 1 };

		if (read_numbers(f, n, 3) < 2)
			exit(1);
		j->pieces[i].length_um = n[0] * UM_PER_MM;
		j->pieces[i].width_um = n[1] * UM_PER_MM;
		j->pieces[i].count = (size_t)n[2];
	}
}

static size_t read_class(struct arena *mem, int set, struct packing_job *jobs)
{
	char name[32];
	FILE *f;

	snprintf(name, sizeof name, "2d-class-%02d.2bp", set);
	f = open_data(name);
	for (int i = 0; i < CLASS_JOBS; i++) {
		struct packing_job *j = &jobs[i];
		long head[4][2];

		for (int k = 0; k < 4; k++)
			if (read_numbers(f, head[k], 2) < 1)
				exit(1);
		j->set = set;
		snprintf(
		        j->name, sizeof j->name, "Class_%02d_%ld_%ld", set, head[1][0], head[2][0]);
		set_stock(j, head[3][0], head[3][1]);
		read_pieces(mem, f, j, (size_t)head[1][0]);
	}
	fclose(f);
	return CLASS_JOBS;
}

static void read_gcut(struct arena *mem, int number, struct packing_job *j)
{
	char name[32];
	long head[3], sheet[3], other[3];
	FILE *f;

	snprintf(name, sizeof name, "2d-gcut%dd.txt", number);
	f = open_data(name);
	if (read_numbers(f, head, 3) < 3 || read_numbers(f, sheet, 3) < 3)
		exit(1);
	for (long i = 1; i < head[1]; i++)
		read_numbers(f, other, 3);
	j->set = PACKING_SETS;
	snprintf(j->name, sizeof j->name, "gcut%dd", number);
	set_stock(j, sheet[0], sheet[1]);
	read_pieces(mem, f, j, (size_t)head[2]);
	fclose(f);
}

static struct packing_job *find(struct packing_job *jobs, size_t count, const char *name)
{
	for (size_t i = 0; i < count; i++)
		if (!strcmp(jobs[i].name, name))
			return &jobs[i];
	fprintf(stderr, "the tables name an unknown job: %s\n", name);
	exit(1);
}

static void read_class_answers(struct packing_job *jobs, size_t count)
{
	FILE *f = open_data("2d-bpp-optima.csv");
	char line[300], name[32];

	if (!fgets(line, sizeof line, f))
		exit(1);
	while (fgets(line, sizeof line, f)) {
		int n[7];
		struct packing_job *j;

		if (sscanf(line, "%31[^,],%*d,%*d,%*d,%d,%d,%d,%d,%d,%d,%d", name, &n[0], &n[1],
		            &n[2], &n[3], &n[4], &n[5], &n[6]) != 8)
			exit(1);
		j = find(jobs, count, name);
		for (int turns = 0; turns < 2; turns++) {
			j->bound[turns] = n[1 + 3 * turns];
			j->free[turns] = n[2 + 3 * turns];
			j->cut[turns] = n[3 + 3 * turns];
		}
	}
	fclose(f);
}

static void read_gcut_answers(struct packing_job *jobs, size_t count)
{
	FILE *f = open_data("2d-gcutd-optima.csv");
	char line[600], name[32], way[16];

	if (!fgets(line, sizeof line, f))
		exit(1);
	while (fgets(line, sizeof line, f)) {
		struct packing_job *j;
		int least, most, turns;

		if (sscanf(line, "%31[^,],\"%*[^\"]\",%15[^,],%*d,%*d,%*d,%*d,%d,%d", name, way,
		            &least, &most) != 4)
			exit(1);
		j = find(jobs, count, name);
		turns = !strcmp(way, "rotation");
		j->bound[turns] = least;
		j->cut[turns] = most;
	}
	fclose(f);
}

size_t packing_jobs(struct arena *mem, struct packing_job **jobs)
{
	struct packing_job *all = *jobs = arena_alloc(mem, MOST_JOBS, sizeof *all);
	size_t n = 0;

	for (int set = 1; set <= CLASSES; set++)
		n += read_class(mem, set, all + n);
	for (int number = 1; number <= GCUTS; number++)
		read_gcut(mem, number, &all[n++]);
	read_class_answers(all, n);
	read_gcut_answers(all, n);
	return n;
}

struct guillotine_piece *packing_pieces(
        struct arena *mem, const struct packing_job *job, bool turns)
{
	struct guillotine_piece *pieces = arena_alloc(mem, job->count, sizeof *pieces);

	for (size_t i = 0; i < job->count; i++) {
		pieces[i] = job->pieces[i];
		pieces[i].turns = turns;
	}
	return pieces;
}
