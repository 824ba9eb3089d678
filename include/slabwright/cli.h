/* cli.h - the program's commands. */
#ifndef SLABWRIGHT_CLI_H
#define SLABWRIGHT_CLI_H

#include "slabwright/error.h"

/* Environment handed in, so that a test can choose it. NULL where unset. */
struct cli_environment {
	const char *store, *xdg_data_home, *home, *share, *no_color, *program_path;
	const char *date; /* today, year-month-day */
};

/* Runs the command line; returns the exit status. Results go to standard output, messages to
 * standard error. */
int cli_main(int argc, char **argv, const struct cli_environment *env);

#endif
