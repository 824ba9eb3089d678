/* program.c - fork, three files for the standard streams, exec, wait. Files instead of pipes:
 * nothing can block, however much is written. */
#include "program.h"

#include <check.h>
#include <fcntl.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { WORDS_MAX = 20 };

static char folder[64];

const char *program_folder(void)
{
	strcpy(folder, "/tmp/slabwright-test-XXXXXX");
	ck_assert_ptr_nonnull(mkdtemp(folder));
	setenv("HOME", folder, 1);
	unsetenv("XDG_DATA_HOME");
	unsetenv("SLABWRIGHT_STORE");
	setenv("SLABWRIGHT_SHARE", getenv("SHARE") ? getenv("SHARE") : "share/slabwright", 1);
	return folder;
}

static int remove_one(const char *path, const struct stat *st, int type, struct FTW *at)
{
	(void)st;
	(void)type;
	(void)at;
	return remove(path);
}

void program_folder_remove(void)
{
	if (folder[0])
		nftw(folder, remove_one, 8, FTW_DEPTH | FTW_PHYS);
	folder[0] = '\0';
}

const char *program_path(const char *name)
{
	static char paths[4][300];
	static int next;
	char *path = paths[next++ % 4];

	snprintf(path, sizeof paths[0], "%s/%s", folder, name);
	return path;
}

void program_write(const char *name, const char *text)
{
	FILE *to = fopen(program_path(name), "wb");

	ck_assert_ptr_nonnull(to);
	ck_assert_int_ge(fputs(text, to), 0);
	ck_assert_int_eq(fclose(to), 0);
}

static int file_of(const char *text)
{
	FILE *f = tmpfile();
	int fd;

	ck_assert_ptr_nonnull(f);
	fputs(text, f);
	rewind(f);
	fd = dup(fileno(f));
	fclose(f);
	lseek(fd, 0, SEEK_SET);
	return fd;
}

static char *text_of(int fd, size_t *length)
{
	off_t size = lseek(fd, 0, SEEK_END);
	char *text = malloc((size_t)size + 1);

	ck_assert_ptr_nonnull(text);
	lseek(fd, 0, SEEK_SET);
	ck_assert_int_eq(read(fd, text, (size_t)size), size);
	text[size] = '\0';
	*length = (size_t)size;
	close(fd);
	return text;
}

static int run(const char *const words[], int in, int out, int err)
{
	const char *program = getenv("SLABWRIGHT");
	char *argv[WORDS_MAX + 2] = { (char *)"slabwright" };
	int status;
	pid_t child;

	ck_assert_msg(program != NULL, "the environment does not name the program (SLABWRIGHT)");
	for (int i = 0; words[i]; i++) {
		ck_assert_int_lt(i, WORDS_MAX);
		argv[i + 1] = (char *)words[i];
	}
	fflush(NULL);
	child = fork();
	ck_assert_int_ge(child, 0);
	if (child == 0) {
		if (dup2(in, 0) >= 0 && dup2(out, 1) >= 0 && dup2(err, 2) >= 0)
			execv(program, argv);
		_exit(127);
	}
	ck_assert_int_eq(waitpid(child, &status, 0), child);
	return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

void program_run(struct output *o, const char *input, const char *const words[])
{
	int in = file_of(input), out = file_of(""), err = file_of("");
	size_t n;

	o->status = run(words, in, out, err);
	close(in);
	o->out = text_of(out, &o->out_length);
	o->err = text_of(err, &n);
}

void program_run_to(struct output *o, int out_fd, const char *const words[])
{
	int in = file_of(""), err = file_of("");
	size_t n;

	o->status = run(words, in, out_fd, err);
	close(in);
	o->out = strdup("");
	o->out_length = 0;
	o->err = text_of(err, &n);
}

void program_done(struct output *o)
{
	free(o->out);
	free(o->err);
	o->out = o->err = NULL;
}

/* %s stand for client, job, variant, the third corner's x, and bond. */
static const char document[] =
        "{ \"format\": \"slabwright-plan\", \"version\": 1, \"client\": { \"name\": \"%s\" },\n"
        "  \"job\": { \"title\": \"%s\" }, \"variants\": [ { \"name\": \"%s\",\n"
        "  \"outline\": { \"nodes\": [ { \"x\": 0, \"y\": 0, \"kind\": \"house wall\" },\n"
        "    { \"x\": 6200, \"y\": 0, \"kind\": \"kerb\" },\n"
        "    { \"x\": %s, \"y\": 4150.5, \"kind\": \"kerb\", \"rise\": 250 },\n"
        "    { \"x\": 0, \"y\": 4150.5, \"kind\": \"open\" } ] },\n"
        "  \"laying\": { \"slab\": { \"length\": 600, \"width\": 300 }, \"bond\": \"%s\" },\n"
        "  \"surface\": { \"planes\": [ { \"x\": 0, \"y\": 0, \"level\": 0, \"toward\": 90,"
        " \"fall\": 15 } ] } } ] }\n";

void program_document(const char *name, const char *client, const char *job, const char *variant,
        const char *x, const char *bond)
{
	char text[4000];

	snprintf(text, sizeof text, document, client, job, variant, x, bond);
	program_write(name, text);
}

void program_import_yard(struct output *o)
{
	program_document("plan.json", "Ann", "Yard", "A", "6200", "stretcher");
	RUN(o, "import", program_path("plan.json"));
	ck_assert_msg(o->status == 0, "%s", o->err);
	ck_assert_str_eq(o->out, "Imported 1 variant into Ann / Yard.\n");
	ck_assert_str_eq(o->err, "");
	program_done(o);
}

void assert_refused(struct output *o, int status, const char *said)
{
	ck_assert_msg(o->status == status, "status %d: %s", o->status, o->err);
	ck_assert_str_eq(o->out, "");
	ck_assert_msg(strncmp(o->err, "slabwright: ", 12) == 0, "%s", o->err);
	ck_assert_msg(strstr(o->err, said) != NULL, "\"%s\" is not in: %s", said, o->err);
	ck_assert_ptr_eq(strchr(o->err, '\n'), o->err + strlen(o->err) - 1);
	program_done(o);
}
