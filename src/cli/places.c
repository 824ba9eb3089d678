/* places.c - where the store and the shared files are. */
#include "command.h"

#include <string.h>
#include <unistd.h>

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
