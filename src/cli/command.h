/* command.h - what a command is given, between cli.c, which reads the command line, and commands.c,
 * which does the work. */
#ifndef CLI_COMMAND_H
#define CLI_COMMAND_H

#include "slabwright/cli.h"
#include "slabwright/file.h"
#include "slabwright/sheet.h"
#include "slabwright/store.h"
#include "slabwright/takeoff.h"

#define PROGRAM_VERSION "0.1.0"

enum { ARGS_MAX = 1 };

/* Options a command takes besides those that every command takes. */
enum {
	TAKES_AS = 1,
	TAKES_TO = 2, /* all of a drawing's */
	TAKES_TURNED = 4,
	TAKES_DATE = 8,
	TAKES_ICS = 16, /* --as ics too */
	TAKES_BESIDE = 32,
	TAKES_ARCHIVED = 64,
};

enum { LOOKS = 1000000 }; /* for a better cut plan, at a time */

typedef enum status sheet_fn(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);

struct run;

struct command {
	const char *name, *argument; /* argument: its word in the help, "" where there is none */
	const char *help;
	bool needs_argument;
	unsigned options;
	enum status (*run)(struct run *run, struct error *err);
	sheet_fn *sheet; /* of commands that print figures */
};

/* One command line, read. */
struct request {
	const struct command *command;
	const char *arguments[ARGS_MAX];
	int argument_count;
	const char *store, *as, *to; /* NULL where not given */
	const char *only, *paper, *scale, *date; /* of a drawing; likewise */
	enum sheet_form form;
	bool calendar; /* --as ics */
	bool turned, beside, archived, ascii, no_colour, help, version;
};

/* One run of a command; what it opens is closed by cli_main. */
struct run {
	const struct request *request;
	const struct cli_environment *env;
	struct arena mem;
	struct store *store;
};

/* commands.c */
enum status command_planner(struct run *run, struct error *err);
enum status command_open(struct run *run, struct error *err);
enum status command_demo(struct run *run, struct error *err);
enum status command_list(struct run *run, struct error *err);
enum status command_figures(struct run *run, struct error *err);
enum status command_startlines(struct run *run, struct error *err);
/* command_store.c */
enum status command_import(struct run *run, struct error *err);
enum status command_export(struct run *run, struct error *err);
enum status command_compare(struct run *run, struct error *err);
enum status command_backup(struct run *run, struct error *err);
enum status command_restore(struct run *run, struct error *err);
enum status command_tidy(struct run *run, struct error *err);
/* store_merge with the outlines checked; *out lives in the run's arena. */
enum status import_file(struct run *run, const char *text, size_t length,
        enum store_clashes clashes, struct store_merged *out, struct error *err);
/* command_sheet.c */
enum status command_sheet(struct run *run, struct error *err);

/* Works out the variant that the command's PATH names, with the best cut plan; *t lives in the
 * run's arena. */
enum status work_out_place(
        struct run *run, struct store_place *place, struct takeoff *t, struct error *err);

/* Opens the store of this run; and finds the place that the command's PATH names in it. */
enum status open_usual(struct run *run, enum store_mode mode, struct error *err);
enum status find_place(struct run *run, struct store_place *place, struct error *err);
/* Opens the store and finds the variant that the command's PATH names. */
enum status find_variant(struct run *run, int64_t *variant, struct error *err);

/* site.c */
enum status command_book(struct run *run, struct error *err);
enum status command_setout(struct run *run, struct error *err);
enum status command_check(struct run *run, struct error *err);

/* costing.c */
enum status command_price(struct run *run, struct error *err);
enum status command_quotation(struct run *run, struct error *err);
enum status command_days(struct run *run, struct error *err);

/* places.c: the store and the folder of shared files, in the run's arena. */
enum status place_of_store(struct run *run, const char **path, struct error *err);
enum status place_of_demo_store(struct run *run, const char **path, struct error *err);
enum status place_of_share(struct run *run, const char **folder, struct error *err);

#endif
