/* planner.c - the loop: wait in one place, draw in one place.
 *
 * All signals the planner answers are blocked except while it sleeps in ppoll, so that none is lost
 * between looking and sleeping. One frame is drawn when no key waits. */
#include "actions.h"
#include "sketch.h"
#include "terminal.h"

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static volatile sig_atomic_t ended, stopped, continued;

static void on_end(int number)
{
	(void)number;
	ended = 1;
}

static void on_stop(int number)
{
	(void)number;
	stopped = 1;
}

static void on_continue(int number)
{
	(void)number;
	continued = 1;
}

static const struct {
	int number;
	void (*handler)(int);
} answers[] = { { SIGHUP, on_end }, { SIGTERM, on_end }, { SIGINT, on_end }, { SIGTSTP, on_stop },
	{ SIGCONT, on_continue } };
enum { ANSWERS = sizeof answers / sizeof answers[0] };

struct signals {
	sigset_t usual;
	struct sigaction old[ANSWERS];
};

static void signals_block(struct signals *s)
{
	sigset_t block;

	sigemptyset(&block);
	sigaddset(&block, SIGWINCH);
	for (int i = 0; i < ANSWERS; i++)
		sigaddset(&block, answers[i].number);
	sigprocmask(SIG_BLOCK, &block, &s->usual);
	ended = stopped = continued = 0;
}

/* After the terminal is open, since ncurses sets handlers of its own. */
static void signals_answer(struct signals *s)
{
	for (int i = 0; i < ANSWERS; i++) {
		struct sigaction act = { .sa_handler = answers[i].handler };

		sigemptyset(&act.sa_mask);
		sigaction(answers[i].number, &act, &s->old[i]);
	}
}

static void signals_done(struct signals *s)
{
	for (int i = 0; i < ANSWERS; i++)
		sigaction(answers[i].number, &(struct sigaction){ .sa_handler = SIG_IGN }, NULL);
	sigprocmask(SIG_SETMASK, &s->usual, NULL);
	for (int i = 0; i < ANSWERS; i++)
		signal(answers[i].number, SIG_DFL);
}

/* Gives the terminal back, stops, and takes it again when the shell lets the program go on. */
static void suspend(void)
{
	struct sigaction usual = { .sa_handler = SIG_DFL }, ours;
	sigset_t stop;

	stopped = 0;
	terminal_close();
	sigemptyset(&usual.sa_mask);
	sigaction(SIGTSTP, &usual, &ours);
	sigemptyset(&stop);
	sigaddset(&stop, SIGTSTP);
	raise(SIGTSTP);
	sigprocmask(SIG_UNBLOCK, &stop, NULL); /* stops here */
	sigprocmask(SIG_BLOCK, &stop, NULL);
	sigaction(SIGTSTP, &ours, NULL);
	terminal_resume();
}

static void draw(struct app *app)
{
	int row = -1, col = 0;
	struct layout lay;

	terminal_size(&app->rows, &app->cols);
	frame_draw(app);
	layout_of(app, &lay);
	if (lay.fits && !app->prompt.on && app_is_stage(app->place) && app->place != AT_VARIANTS) {
		struct sketch s = { .app = app, .area = lay.canvas };
		int r = sketch_row(&s, (double)app->view.y_um),
		    c = sketch_col(&s, (double)app->view.x_um);

		if (r >= 0 && c >= 0 && r < lay.canvas.rows && c < lay.canvas.cols) {
			row = lay.canvas.row + r;
			col = lay.canvas.col + c;
		}
	}
	terminal_show(&app->cells, row, col);
}

/* Sleeps until a key, a signal, or a second has gone by; when work waits, not at all. False when
 * the terminal is gone. */
static bool wait_for_event(const struct signals *s, bool work)
{
	struct pollfd in = { .fd = STDIN_FILENO, .events = POLLIN };
	struct timespec least = { .tv_sec = work ? 0 : 1 };
	int n = ppoll(&in, 1, &least, &s->usual);

	return n < 0 ? errno == EINTR : !(in.revents & (POLLHUP | POLLERR | POLLNVAL));
}

static void loop(struct app *app, const struct signals *s)
{
	bool dirty = true, work;
	int key;

	while (!app->quit && !ended) {
		while (!app->quit && terminal_key(app, &key)) {
			app_key(app, key);
			dirty = true;
		}
		if (app->quit)
			break;
		if (dirty)
			draw(app);
		work = app_idle(app);
		dirty = work;
		if (!wait_for_event(s, work))
			break;
		if (app_catch_up(app))
			dirty = true;
		if (stopped)
			suspend();
		if (continued) {
			continued = 0;
			terminal_resume();
			dirty = true;
		}
	}
}

/* Opens what was asked for, else what was open last, else the list of clients. */
static void begin(struct app *app, int64_t variant)
{
	const char *text = "";
	struct error err;
	char *end;

	app->place = app->back = AT_CLIENTS;
	app->nudge_um = 10 * UM_PER_MM;
	if (!variant && store_view_get(app->store, 0, "variant", &app->frame_mem, &text, &err) ==
	                        STATUS_OK) {
		variant = strtoll(text, &end, 10);
		if (*end)
			variant = 0;
	}
	if (variant)
		app_open(app, variant);
	if (!app->variant)
		show_clients(app);
}

static void done(struct app *app)
{
	starts_close(app);
	app_keep_view(app);
	arena_free(&app->names_mem);
	arena_free(&app->work);
	arena_free(&app->list_mem);
	arena_free(&app->choice_mem);
	arena_free(&app->frame_mem);
	cells_free(&app->cells);
}

enum status planner_run(
        struct store *store, const struct planner_options *options, struct error *err)
{
	struct app *app = calloc(1, sizeof *app);
	struct signals signals;
	enum status st;

	if (!app)
		return error_memory(err);
	app->store = store;
	app->colour = options->colour;
	app->ascii = options->ascii || !terminal_is_utf8();
	signals_block(&signals);
	st = terminal_open(options->colour, err);
	if (st == STATUS_OK) {
		signals_answer(&signals);
		terminal_size(&app->rows, &app->cols);
		begin(app, options->variant);
		loop(app, &signals);
		terminal_close();
	}
	done(app);
	signals_done(&signals);
	free(app);
	return st;
}
