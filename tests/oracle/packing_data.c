/* packing_data.c - see packing_data.h. */
#include "packing_data.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static FILE *open_set(const char *file)
{
	const char *share = getenv("SHARE");
	char path[4096];
	FILE *from;

	snprintf(path, sizeof path, "%s%stests/data/packing/%s", share ? share : "",
	        share ? "/../../" : "", file);
	from = fopen(path, "r");
	if (!from) {
		perror(path);
		exit(1);
	}
	return from;
}

static int64_t number(FILE *from)
{
	int64_t n;

	if (fscanf(from, "%" SCNd64, &n) != 1) {
		fputs("a number is missing in a packing set\n", stderr);
		exit(1);
	}
	return n;
}

size_t packings_read(struct arena *mem, const char *file, struct packing **out)
{
	FILE *from = open_set(file);
	size_t count = (size_t)number(from);

	*out = arena_alloc(mem, count, sizeof **out);
	for (size_t i = 0; i < count; i++) {
		struct packing *p = &(*out)[i];
		char name[40];

		if (fscanf(from, "%39s", name) != 1)
			exit(1);
		p->name = arena_text(mem, name);
		p->unit = number(from);
		p->count = (size_t)number(from);
		p->optimum = (size_t)number(from);
		p->pieces = arena_alloc(mem, p->count, sizeof *p->pieces);
		for (size_t k = 0; k < p->count; k++)
			p->pieces[k] = (struct pack_piece){ number(from), 1 };
	}
	fclose(from);
	return count;
}

size_t packings_read_kerf(struct arena *mem, struct packing **out)
{
	FILE *from = open_set("kerf-small.csv");
	size_t count = 0, room = 0;
	char line[1000], name[40];

	*out = NULL;
	if (!fgets(line, sizeof line, from))
		exit(1);
	while (fgets(line, sizeof line, from)) {
		struct packing p = { 0 };
		int at = 0;

		if (sscanf(line, "%39[^,],%" SCNd64 ",%" SCNd64 ",%zu,%zu,%*d,%*d,%n", name,
		            &p.unit, &p.kerf, &p.count, &p.optimum, &at) != 5 ||
		        !at)
			exit(1);
		p.name = arena_text(mem, name);
		p.pieces = arena_alloc(mem, p.count, sizeof *p.pieces);
		for (size_t i = 0; i < p.count; i++) {
			int read = 0;

			if (sscanf(line + at, "%" SCNd64 "%n", &p.pieces[i].length_um, &read) != 1)
				exit(1);
			p.pieces[i].count = 1;
			at += read;
		}
		*out = arena_grow(mem, *out, count, &room, sizeof **out);
		(*out)[count++] = p;
	}
	fclose(from);
	return count;
}

const char *packing_fault(const struct packing *p, const struct pack_plan *plan)
{
	size_t *used = calloc(p->count + 1, sizeof *used), next = 0;
	const char *fault = plan->unit_count < plan->bound ? "fewer units than the bound" : NULL;

	for (size_t u = 0; u < plan->unit_count; u++) {
		const struct pack_unit *unit = &plan->units[u];
		int64_t length = 0;

		if (!unit->count || unit->first != next)
			fault = "a unit is empty or out of turn";
		next = unit->first + unit->count;
		for (size_t i = unit->first; i < next; i++) {
			length += p->pieces[plan->piece[i]].length_um +
			          (i > unit->first ? p->kerf : 0);
			used[plan->piece[i]]++;
		}
		if (length > p->unit)
			fault = "a unit is exceeded";
	}
	for (size_t i = 0; i < p->count; i++)
		if (used[i] != p->pieces[i].count)
			fault = "a piece comes too often or too seldom";
	free(used);
	return fault;
}

struct pack_plan packing_solve(struct arena *mem, const struct packing *p, int64_t work)
{
	enum { SLICE = 1000000 };
	struct pack_plan plan;
	struct pack *pack;
	struct error err;

	if (pack_begin(mem, p->pieces, p->count, p->unit, p->kerf, &pack, &err) != STATUS_OK) {
		fprintf(stderr, "%s: %s\n", p->name, err.text);
		exit(1);
	}
	for (int64_t done = 0; done < work && !pack_done(pack); done += SLICE)
		if (pack_step(pack, SLICE, &err) != STATUS_OK)
			exit(1);
	if (pack_best(pack, &plan, &err) != STATUS_OK)
		exit(1);
	return plan;
}
