/* fuzz_import.c - the import fed with anything: it refuses or takes, and what it took goes out and
 * in again as the same. Built with clang, and run for a minute on the demo job and on a plan with
 * border courses, zones and all that stands beside the paving:
 *
 *   clang -g -O1 -fsanitize=fuzzer,address,undefined -Iinclude -D_GNU_SOURCE -o /tmp/fuzz_import \
 *     tests/fuzz/fuzz_import.c src/base/?*.c src/store/?*.c -lsqlite3 -lm
 *   mkdir /tmp/corpus && cp share/slabwright/demo.json tests/fuzz/parts.json /tmp/corpus
 *   SHARE=share/slabwright /tmp/fuzz_import -max_total_time=60 -max_len=6000 /tmp/corpus */
#include "slabwright/store.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { DOCUMENTS_A_STORE = 2000 };

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

static void must(enum status st, const struct error *err)
{
	if (st == STATUS_OK)
		return;
	fprintf(stderr, "%s\n", err->text);
	abort();
}

/* A fresh store now and then, so that it does not grow with the run. */
static struct store *store_for(unsigned long document)
{
	static struct store *s;
	struct error err = { 0 };
	char path[80];

	if (s && document % DOCUMENTS_A_STORE)
		return s;
	store_close(s);
	snprintf(path, sizeof path, "/tmp/fuzz-import-%d.slabs", (int)getpid());
	unlink(path);
	must(store_open(&s, path, STORE_MAY_CREATE, getenv("SHARE"), &err), &err);
	return s;
}

static void out_and_in_again(struct store *s, int64_t variant)
{
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct store_place place;
	const char *json;
	int64_t first;
	size_t added;

	must(store_place_of(s, variant, &mem, &place, &err), &err);
	must(store_export(s, place.job, variant, &mem, &json, &err), &err);
	must(store_import(s, json, strlen(json), NULL, &first, &added, &err), &err);
	if (added || first != variant)
		abort();
	arena_free(&mem);
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
	static unsigned long documents;
	struct store *s = store_for(documents++);
	struct error err = { 0 };
	int64_t first;
	size_t added;
	enum status st = store_import(s, (const char *)data, size, NULL, &first, &added, &err);

	if (st != STATUS_PLAN)
		must(st, &err);
	if (added)
		out_and_in_again(s, first);
	return 0;
}
