/* cli.c - the command line: one table of commands and one of options drive reading and help. */
#include "command.h"

#include <errno.h>
#include <string.h>

static const struct command commands[] = {
	{ "demo", "", "plan an invented courtyard (in a store of its own, unless one is named)",
	        false, 0, command_demo, NULL },
	{ "open", "PATH", "plan that variant", true, 0, command_open, NULL },
	{ "list", "", "list what the store holds, one PATH a line", false, TAKES_ARCHIVED,
	        command_list, NULL },
	{ "import", "FILE", "take in a plan document (- for standard input)", true, TAKES_BESIDE,
	        command_import, NULL },
	{ "export", "PATH", "write a client, a job or a variant as a plan document", true, 0,
	        command_export, NULL },
	{ "compare", "PATH", "the variants of a job side by side", true, TAKES_AS, command_compare,
	        NULL },
	{ "backup", "FILE", "write the whole store to a new file", true, 0, command_backup, NULL },
	{ "restore", "FILE", "put a backup in the place of the store, which is kept", true, 0,
	        command_restore, NULL },
	{ "tidy", "", "remove for good what was deleted", false, 0, command_tidy, NULL },
	{ "takeoff", "PATH", "areas, slabs, cuts, order, edges, surface", true, TAKES_AS,
	        command_figures, sheet_takeoff },
	{ "cuts", "PATH", "the cut plan: every piece, and the slab it comes from", true, TAKES_AS,
	        command_figures, sheet_cuts },
	{ "courses", "PATH", "the laying sheet: course by course, each piece sketched", true,
	        TAKES_AS, command_figures, sheet_courses },
	{ "water", "PATH", "which edge takes the water of how many square metres", true, TAKES_AS,
	        command_figures, sheet_water },
	{ "levels", "PATH", "levels, formation and staff readings", true, TAKES_AS, command_figures,
	        sheet_levels },
	{ "book", "PATH", "the levelling book, reduced and checked", true, TAKES_AS, command_book,
	        NULL },
	{ "setout", "PATH", "pegs from a baseline, diagonals, 3-4-5", true, TAKES_AS,
	        command_setout, NULL },
	{ "check", "PATH", "what was built against plan and tolerances", true, TAKES_AS,
	        command_check, NULL },
	{ "dig", "PATH", "ground, dig and fill, and the layers that come in", true, TAKES_AS,
	        command_figures, sheet_dig },
	{ "edging", "PATH", "kerb sections, beds, masses and string lines", true, TAKES_AS,
	        command_figures, sheet_edging },
	{ "steps", "PATH", "flights of steps: risers, limits, every unit", true, TAKES_AS,
	        command_figures, sheet_steps },
	{ "planters", "PATH", "planter walls, block by block, and the soil they hold", true,
	        TAKES_AS, command_figures, sheet_planters },
	{ "startlines", "PATH", "where the first slab goes: the best starts, ranked", true,
	        TAKES_AS | TAKES_TURNED, command_startlines, NULL },
	{ "order", "PATH", "all that is bought and carted away, by supplier", true, TAKES_AS,
	        command_figures, sheet_order },
	{ "price", "PATH", "the cost sheet, for the crew: every line, from costs to price", true,
	        TAKES_AS, command_price, NULL },
	{ "quotation", "PATH", "the price in whole money, for the client", true,
	        TAKES_AS | TAKES_DATE, command_quotation, NULL },
	{ "days", "PATH", "the day plan, with what must harden; --as ics for a calendar", true,
	        TAKES_AS | TAKES_DATE | TAKES_ICS, command_days, NULL },
	{ "sheet", "PATH", "drawings and lists on paper, to scale: PDF, SVG or PNG", true, TAKES_TO,
	        command_sheet, NULL },
};

static const struct command planner = { "", "", "", false, 0, command_planner, NULL };

enum { COMMANDS = sizeof commands / sizeof *commands };

struct option {
	const char *name, *value, *help;
	size_t at; /* where in struct request it goes */
};

static const struct option options[] = {
	{ "--store", "FILE", "use this store", offsetof(struct request, store) },
	{ "--as", "FORM", "print figures as text, csv or json; days as ics too",
	        offsetof(struct request, as) },
	{ "--to", "FILE", "where a drawing goes: a name ending in .pdf, .svg or .png",
	        offsetof(struct request, to) },
	{ "--only", "SHEET", "of the drawings only plan, laying, cuts, levels or order",
	        offsetof(struct request, only) },
	{ "--paper", "SIZE", "draw on A4, A3 or Letter", offsetof(struct request, paper) },
	{ "--scale", "1:50", "draw plans to that scale", offsetof(struct request, scale) },
	{ "--date", "DATE", "year-month-day of drawings and letters, in place of today",
	        offsetof(struct request, date) },
	{ "--turned", NULL, "rank start lines with the bond turned by 90 degrees too",
	        offsetof(struct request, turned) },
	{ "--beside", NULL, "import what differs from what is here beside it",
	        offsetof(struct request, beside) },
	{ "--archived", NULL, "list what is archived too", offsetof(struct request, archived) },
	{ "--ascii", NULL, "draw with plain ASCII", offsetof(struct request, ascii) },
	{ "--no-colour", NULL, "draw without colours", offsetof(struct request, no_colour) },
	{ "--help", NULL, "print this help", offsetof(struct request, help) },
	{ "--version", NULL, "print the version", offsetof(struct request, version) },
};

enum { OPTIONS = sizeof options / sizeof *options };

#define HELP_HINT "`slabwright --help` lists commands and options."

static void print_help(void)
{
	char left[60];

	puts("Slabwright plans patios: outline, falls, laying of every slab, cuts and order.\n\n"
	     "  slabwright                  open the planner, full screen\n"
	     "  slabwright COMMAND ...      one of these:\n");
	for (int i = 0; i < COMMANDS; i++) {
		snprintf(left, sizeof left, "%s %s", commands[i].name, commands[i].argument);
		printf("  %-18s  %s\n", left, commands[i].help);
	}
	puts("\nOptions:\n");
	for (int i = 0; i < OPTIONS; i++) {
		snprintf(left, sizeof left, "%s %s", options[i].name,
		        options[i].value ? options[i].value : "");
		printf("  %-18s  %s\n", left, options[i].help);
	}
	puts("\nPATH is CLIENT/JOB/VARIANT, quoted where the shell needs it; `slabwright list` "
	     "shows\n"
	     "what there is. Figures come as text, or with --as csv or --as json.\n"
	     "Exit status: 0 done, 1 a plan cannot be worked out, 2 wrong use, 3 no usable store.\n"
	     "More: man slabwright; the plan document: man 5 slabwright.");
}

static enum status take_option(struct request *r, int argc, char **argv, int *at, struct error *err)
{
	const char *word = argv[*at], *equals = strchr(word, '=');
	size_t length = equals ? (size_t)(equals - word) : strlen(word);

	for (const struct option *o = options; o < options + OPTIONS; o++) {
		if (strlen(o->name) != length || strncmp(o->name, word, length) != 0)
			continue;
		if (!o->value && equals)
			return error_set(
			        err, STATUS_USAGE, "%s takes no value. " HELP_HINT, o->name);
		if (!o->value) {
			*(bool *)((char *)r + o->at) = true;
			return STATUS_OK;
		}
		if (!equals && *at + 1 >= argc)
			return error_set(err, STATUS_USAGE, "%s needs %s after it. " HELP_HINT,
			        o->name, o->value);
		*(const char **)(void *)((char *)r + o->at) = equals ? equals + 1 : argv[++*at];
		return STATUS_OK;
	}
	return error_set(err, STATUS_USAGE, "There is no option %s. " HELP_HINT, word);
}

static enum status take_word(struct request *r, const char *word, struct error *err)
{
	if (r->command) {
		if (r->argument_count == (*r->command->argument ? 1 : 0))
			return error_set(err, STATUS_USAGE,
			        "%s: \"%s\" is one word too many; quote names with "
			        "blanks. " HELP_HINT,
			        r->command->name, word);
		r->arguments[r->argument_count++] = word;
		return STATUS_OK;
	}
	for (int i = 0; i < COMMANDS; i++)
		if (strcmp(commands[i].name, word) == 0) {
			r->command = &commands[i];
			return STATUS_OK;
		}
	return error_set(err, STATUS_USAGE, "There is no command \"%s\". " HELP_HINT, word);
}

static enum status take_form(struct request *r, struct error *err)
{
	static const char *const forms[] = { "text", "csv", "json" };

	for (int i = 0; i < 3; i++)
		if (!r->as || strcmp(forms[i], r->as) == 0) {
			r->form = (enum sheet_form)i;
			return STATUS_OK;
		}
	r->calendar = strcmp(r->as, "ics") == 0 && (r->command->options & TAKES_ICS);
	if (r->calendar)
		return STATUS_OK;
	return error_set(err, STATUS_USAGE, "--as %s: figures come as text, csv or json%s.", r->as,
	        r->command->options & TAKES_ICS ? "; days also as ics" : "");
}

/* What must hold between the command and what was given with it. */
static enum status check_request(struct request *r, struct error *err)
{
	const struct command *c = r->command;

	if (r->as && !(c->options & TAKES_AS))
		return error_set(err, STATUS_USAGE,
		        "--as goes with commands that print figures. " HELP_HINT);
	if (r->date && !(c->options & (TAKES_TO | TAKES_DATE)))
		return error_set(err, STATUS_USAGE,
		        "--date goes with the commands sheet, quotation and days. " HELP_HINT);
	if (!(c->options & TAKES_TO) && (r->to || r->only || r->paper || r->scale))
		return error_set(err, STATUS_USAGE, "%s goes with the command sheet. " HELP_HINT,
		        r->to      ? "--to"
		        : r->only  ? "--only"
		        : r->paper ? "--paper"
		                   : "--scale");
	if (r->turned && !(c->options & TAKES_TURNED))
		return error_set(
		        err, STATUS_USAGE, "--turned goes with the command startlines. " HELP_HINT);
	if (r->beside && !(c->options & TAKES_BESIDE))
		return error_set(
		        err, STATUS_USAGE, "--beside goes with the command import. " HELP_HINT);
	if (r->archived && !(c->options & TAKES_ARCHIVED))
		return error_set(
		        err, STATUS_USAGE, "--archived goes with the command list. " HELP_HINT);
	if (c->needs_argument && !r->argument_count)
		return error_set(err, STATUS_USAGE, "%s needs %s after it. " HELP_HINT, c->name,
		        c->argument);
	if (r->store && !*r->store)
		return error_set(err, STATUS_USAGE, "--store needs the name of a file. " HELP_HINT);
	return take_form(r, err);
}

static enum status read_request(struct request *r, int argc, char **argv, struct error *err)
{
	bool words_only = false;
	enum status st = STATUS_OK;

	for (int i = 1; i < argc && st == STATUS_OK; i++) {
		if (!words_only && strcmp(argv[i], "--") == 0)
			words_only = true;
		else if (!words_only && argv[i][0] == '-' && argv[i][1])
			st = take_option(r, argc, argv, &i, err);
		else
			st = take_word(r, argv[i], err);
	}
	if (st != STATUS_OK || r->help || r->version)
		return st;
	if (!r->command)
		r->command = &planner;
	return check_request(r, err);
}

static enum status run_request(
        const struct request *r, const struct cli_environment *env, struct error *err)
{
	struct run run = { .request = r, .env = env };
	enum status st;

	if (r->help) {
		print_help();
		return STATUS_OK;
	}
	if (r->version) {
		puts("slabwright " PROGRAM_VERSION);
		return STATUS_OK;
	}
	st = r->command->run(&run, err);
	store_close(run.store);
	arena_free(&run.mem);
	return st;
}

/* What was printed must have arrived, or the shell would take half an answer for a whole one. */
static enum status flush_output(struct error *err)
{
	errno = 0;
	if (fflush(stdout) == 0 && !ferror(stdout))
		return STATUS_OK;
	if (errno == EPIPE)
		return error_set(err, STATUS_PLAN, "%s", ""); /* the reader has gone, and knows */
	return error_set(err, STATUS_PLAN, "The output could not be written whole: %s.",
	        errno ? strerror(errno) : "a write failed");
}

int cli_main(int argc, char **argv, const struct cli_environment *env)
{
	struct request request = { 0 };
	struct error err = { 0 };
	enum status st = read_request(&request, argc, argv, &err);

	if (st == STATUS_OK)
		st = run_request(&request, env, &err);
	if (st == STATUS_OK)
		st = flush_output(&err);
	if (st != STATUS_OK && err.text[0])
		fprintf(stderr, "slabwright: %s\n", err.text);
	return st == STATUS_MEMORY ? STATUS_PLAN : (int)st;
}
