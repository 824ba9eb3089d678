/* drive.c - the planner driven by keys. */
#include "screen/drive.h"

#include <check.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static const struct {
	const char *word;
	VTermKey key;
	VTermModifier mod;
} keys[] = {
	{ "Enter", VTERM_KEY_ENTER, VTERM_MOD_NONE },
	{ "Esc", VTERM_KEY_ESCAPE, VTERM_MOD_NONE },
	{ "Tab", VTERM_KEY_TAB, VTERM_MOD_NONE },
	{ "S-Tab", VTERM_KEY_TAB, VTERM_MOD_SHIFT },
	{ "Left", VTERM_KEY_LEFT, VTERM_MOD_NONE },
	{ "Right", VTERM_KEY_RIGHT, VTERM_MOD_NONE },
	{ "Up", VTERM_KEY_UP, VTERM_MOD_NONE },
	{ "Down", VTERM_KEY_DOWN, VTERM_MOD_NONE },
	{ "S-Left", VTERM_KEY_LEFT, VTERM_MOD_SHIFT },
	{ "S-Right", VTERM_KEY_RIGHT, VTERM_MOD_SHIFT },
	{ "S-Up", VTERM_KEY_UP, VTERM_MOD_SHIFT },
	{ "S-Down", VTERM_KEY_DOWN, VTERM_MOD_SHIFT },
	{ "Back", VTERM_KEY_BACKSPACE, VTERM_MOD_NONE },
	{ "Delete", VTERM_KEY_DEL, VTERM_MOD_NONE },
	{ "Home", VTERM_KEY_HOME, VTERM_MOD_NONE },
	{ "End", VTERM_KEY_END, VTERM_MOD_NONE },
	{ "PageUp", VTERM_KEY_PAGEUP, VTERM_MOD_NONE },
	{ "PageDown", VTERM_KEY_PAGEDOWN, VTERM_MOD_NONE },
};

void drive_begin(struct drive *d)
{
	memset(d, 0, sizeof *d);
	snprintf(d->folder, sizeof d->folder, "/tmp/slabwright-screen-XXXXXX");
	ck_assert_ptr_nonnull(mkdtemp(d->folder));
	snprintf(d->store, sizeof d->store, "%s/jobs.slabs", d->folder);
}

void drive_start(struct drive *d, int rows, int cols)
{
	const char *program = getenv("SLABWRIGHT");
	const char *argv[] = { program, "--store", d->store, d->options[0],
		d->options[0] ? d->options[1] : NULL, NULL };

	ck_assert_msg(program != NULL, "SLABWRIGHT must name the program under test");
	d->t = term_start(rows, cols, argv);
}

void drive_quit(struct drive *d)
{
	int status;

	term_type(d->t, "q");
	status = term_wait_exit(d->t);
	ck_assert(WIFEXITED(status));
	ck_assert_int_eq(WEXITSTATUS(status), 0);
	ck_assert(!term_altscreen(d->t));
	term_stop(d->t);
	d->t = NULL;
}

void drive_end(struct drive *d)
{
	DIR *folder;
	struct dirent *entry;

	term_stop(d->t);
	d->t = NULL;
	folder = opendir(d->folder);
	while (folder && (entry = readdir(folder))) {
		char path[400];

		snprintf(path, sizeof path, "%s/%s", d->folder, entry->d_name);
		if (entry->d_name[0] != '.')
			unlink(path);
	}
	if (folder)
		closedir(folder);
	rmdir(d->folder);
}

/* By the list of stages. */
static void go_to(struct drive *d, const char *stage)
{
	char here[40];

	term_type(d->t, ".");
	drive_sees(d, "Go to the stage");
	term_type(d->t, "f");
	term_type(d->t, stage);
	term_key(d->t, VTERM_KEY_ENTER, VTERM_MOD_NONE);
	term_key(d->t, VTERM_KEY_ENTER, VTERM_MOD_NONE);
	snprintf(here, sizeof here, "[%s]", stage);
	drive_sees(d, here);
}

static bool send_key(struct drive *d, const char *word)
{
	for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
		if (strcmp(keys[i].word, word) != 0)
			continue;
		term_key(d->t, keys[i].key, keys[i].mod);
		if (keys[i].key ==
		        VTERM_KEY_ESCAPE) /* what follows at once would make it another key */
			term_drain(d->t, 60, 200);
		return true;
	}
	return false;
}

void drive_keys(struct drive *d, const char *words)
{
	char copy[400], *rest = copy, *word;

	snprintf(copy, sizeof copy, "%s", words);
	while ((word = strsep(&rest, " "))) {
		if (!*word || send_key(d, word))
			continue;
		if (*word == '@') {
			go_to(d, word + 1);
			continue;
		}
		for (char *p = word; *p; p++)
			if (*p == '_')
				*p = ' ';
		term_type(d->t, word);
	}
}

void drive_sees(struct drive *d, const char *text)
{
	ck_assert_msg(term_wait_text(d->t, text), "the screen does not show \"%s\"", text);
}

void drive_misses(struct drive *d, const char *text)
{
	ck_assert_msg(term_wait_gone(d->t, text), "the screen still shows \"%s\"", text);
}

static bool has_figure(struct drive *d, const char *label, const char *value)
{
	char *screen = term_screen(d->t), *rest = screen, *line;
	size_t n = strlen(value);
	bool found = false;

	while (!found && (line = strsep(&rest, "\n"))) {
		char *at = strstr(line, label);

		for (at = at ? strstr(at + strlen(label), value) : NULL; at && !found;
		        at = strstr(at + 1, value))
			found = at[-1] == ' ' && (at[n] == '\0' || at[n] == ' ');
	}
	free(screen);
	return found;
}

void drive_figure(struct drive *d, const char *label, const char *value)
{
	drive_sees(d, label);
	for (int i = 0; i < 100 && !has_figure(d, label, value); i++)
		term_drain(d->t, 20, 100);
	if (!has_figure(d, label, value)) {
		char *s = term_screen(d->t);

		fprintf(stderr, "the screen is:\n%s", s);
		free(s);
		ck_abort_msg("\"%s\" is not %s", label, value);
	}
}

void drive_new_variant(struct drive *d)
{
	drive_sees(d, "No client yet");
	drive_keys(d, "a Demo_client Enter");
	drive_sees(d, "Title of the job");
	drive_keys(d, "Courtyard Enter");
	drive_sees(d, "Name of the variant");
	drive_keys(d, "Enter");
	drive_sees(d, "Draw the paving");
}

/* The outline by the tape; corner 1 at 0, 0 and the house along edge 1. */
void drive_courtyard(struct drive *d)
{
	drive_new_variant(d);
	drive_keys(d, "6,2 Right 3 Up 6.2m Left c");
	drive_sees(d, "The outline is closed");
	drive_figure(d, "area", "18.60");
	drive_keys(d, "s");
	drive_sees(d, "What stands along edge 1?");
	drive_keys(d, "PageUp Enter");
	drive_figure(d, "along it", "wall");
}

void drive_opening(struct drive *d)
{
	drive_keys(d, "z Delete 0,3 Enter Right Right Right Right Up Up");
	drive_figure(d, "at", "1.200");
	drive_keys(d, "r 0,6_x_0,6 Enter");
	drive_sees(d, "The opening is cut");
}

void drive_stack_bond(struct drive *d)
{
	drive_keys(d, "b");
	drive_sees(d, "joints run through");
	drive_keys(d, "Up Enter");
	drive_sees(d, "Bond: stack");
}

void drive_at_laying(struct drive *d)
{
	drive_courtyard(d);
	drive_opening(d);
	drive_keys(d, "Tab Tab");
	drive_stack_bond(d);
	drive_keys(d, "Right Right Up");
	drive_sees(d, "[Laying]");
}
