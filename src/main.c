/* main.c - the one place that looks at the process: locale, environment, its own file. */
#include "slabwright/cli.h"

#include <limits.h>
#include <locale.h>
#include <signal.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

int main(int argc, char **argv)
{
	char program[PATH_MAX], date[16] = "";
	time_t now = time(NULL);
	struct tm today;
	ssize_t n = readlink("/proc/self/exe", program, sizeof program - 1);
	struct cli_environment env = {
		.store = getenv("SLABWRIGHT_STORE"),
		.xdg_data_home = getenv("XDG_DATA_HOME"),
		.home = getenv("HOME"),
		.share = getenv("SLABWRIGHT_SHARE"),
		.no_color = getenv("NO_COLOR"),
		.program_path = n > 0 ? program : NULL,
		.date = date,
	};

	if (localtime_r(&now, &today))
		strftime(date, sizeof date, "%Y-%m-%d", &today);
	if (n > 0)
		program[n] = '\0';
	setlocale(LC_ALL, "");
	setlocale(LC_NUMERIC, "C"); /* figures are written and read with '.' */
	signal(SIGPIPE, SIG_IGN); /* a reader that goes away is a failed write, which is said */
	return cli_main(argc, argv, &env);
}
