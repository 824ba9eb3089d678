/* places.c - where the store and the shared files are, and reading a file whole. */
#include "command.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define FILE_LIMIT ((size_t)64 << 20)

static bool given(const char *value)
{
	return value && *value;
}

static enum status usual_store(struct run *run, const char **path, struct error *err)
{
	return store_usual_path(&run->mem, run->env->xdg_data_home, run->env->home, path, err);
}

enum status place_of_store(struct run *run, const char **path, struct error *err)
{
	if (given(run->request->store))
		*path = run->request->store;
	else if (given(run->env->store))
		*path = run->env->store;
	else
		return usual_store(run, path, err);
	return STATUS_OK;
}

/* Beside the usual store, so that trying the demo leaves the crew's own jobs alone. */
enum status place_of_demo_store(struct run *run, const char **path, struct error *err)
{
	const char *usual, *slash;
	enum status st;

	if (given(run->request->store) || given(run->env->store))
		return place_of_store(run, path, err);
	if ((st = usual_store(run, &usual, err)) != STATUS_OK)
		return st;
	slash = strrchr(usual, '/');
	*path = arena_print(
	        &run->mem, "%.*sdemo.slabs", slash ? (int)(slash + 1 - usual) : 0, usual);
	return *path ? STATUS_OK : error_memory(err);
}

enum status place_of_share(struct run *run, const char **folder, struct error *err)
{
	static const char *const from_program[] = { "../share/slabwright",
		"../../share/slabwright" };
	const char *program = run->env->program_path, *slash;

	if (given(run->env->share)) {
		*folder = run->env->share;
		return STATUS_OK;
	}
	*folder = SHARE_DIR;
	slash = given(program) ? strrchr(program, '/') : NULL;
	for (size_t i = 0; slash && i < sizeof from_program / sizeof *from_program; i++) {
		const char *there = arena_print(
		        &run->mem, "%.*s/%s", (int)(slash - program), program, from_program[i]);

		if (!there)
			return error_memory(err);
		if (access(there, X_OK) == 0) {
			*folder = there;
			break;
		}
	}
	return STATUS_OK;
}

/* Reads to the end into a growing buffer, which the caller frees whatever comes back. */
static enum status read_all(
        FILE *from, const char *name, char **buffer, size_t *length, struct error *err)
{
	size_t room = 0;

	*length = 0;
	for (;;) {
		if (*length == room) {
			char *moved;

			room = room ? room * 2 : 65536;
			if (room > FILE_LIMIT)
				return error_set(err, STATUS_PLAN,
				        "%s is larger than 64 MB; a plan document is far smaller.",
				        name);
			if (!(moved = realloc(*buffer, room)))
				return error_memory(err);
			*buffer = moved;
		}
		errno = 0;
		*length += fread(*buffer + *length, 1, room - *length, from);
		if (ferror(from))
			return error_set(err, STATUS_PLAN,
			        "%s cannot be read: %s. Give the file of a plan document.", name,
			        strerror(errno ? errno : EIO));
		if (feof(from))
			return STATUS_OK;
	}
}

enum status read_file(
        struct run *run, const char *path, const char **text, size_t *length, struct error *err)
{
	bool standard = strcmp(path, "-") == 0;
	const char *name = standard ? "Standard input" : path;
	FILE *from = standard ? stdin : fopen(path, "rb");
	char *buffer = NULL, *kept;
	enum status st;

	if (!from)
		return error_set(err, STATUS_PLAN,
		        "%s cannot be read: %s. Give the name of a plan document, or - for "
		        "standard input.",
		        name, strerror(errno));
	st = read_all(from, name, &buffer, length, err);
	if (!standard)
		fclose(from);
	if (st == STATUS_OK) {
		kept = arena_alloc(&run->mem, *length + 1, 1);
		if (kept)
			memcpy(kept, buffer, *length);
		else
			st = error_memory(err);
		*text = kept;
	}
	free(buffer);
	return st;
}
