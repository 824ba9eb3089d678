/* term.c - a program on a pseudo-terminal, read through libvterm.
 *
 * Nothing sleeps for a fixed time: waiting polls the pseudo-terminal and looks at the screen
 * whenever bytes have come. */
#include "screen/term.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { WAIT_MS = 10000 }; /* only a failure waits this long */

struct bytes {
	char *p;
	size_t n;
};

struct term {
	int fd, rows, cols, status;
	pid_t pid;
	bool ended, reaped, alt;
	size_t received;
	VTerm *vt;
	VTermScreen *screen;
	struct bytes out; /* still to send */
};

static void die(const char *what)
{
	perror(what);
	abort();
}

static void append(struct bytes *b, const char *p, size_t n)
{
	b->p = realloc(b->p, b->n + n + 1);
	if (!b->p)
		die("realloc");
	memcpy(b->p + b->n, p, n);
	b->n += n;
	b->p[b->n] = '\0';
}

long long term_now_ns(void)
{
	struct timespec ts;

	clock_gettime(CLOCK_MONOTONIC, &ts);
	return ts.tv_sec * 1000000000LL + ts.tv_nsec;
}

static long now_ms(void)
{
	return (long)(term_now_ns() / 1000000);
}

static void on_output(const char *s, size_t n, void *arg)
{
	append(&((struct term *)arg)->out, s, n);
}

static int on_property(VTermProp prop, VTermValue *value, void *arg)
{
	if (prop == VTERM_PROP_ALTSCREEN)
		((struct term *)arg)->alt = value->boolean;
	return 1;
}

static const VTermScreenCallbacks callbacks = { .settermprop = on_property };

static void child_environment(void)
{
	static const char *const drop[] = { "LINES", "COLUMNS", "ESCDELAY", "TERMCAP", "TERMINFO",
		"LC_ALL", "LC_CTYPE", "LANGUAGE", "NO_COLOR", "SLABWRIGHT_STORE" };
	sigset_t none;

	for (size_t i = 0; i < sizeof drop / sizeof drop[0]; i++)
		unsetenv(drop[i]);
	setenv("TERM", "xterm-256color", 1);
	setenv("LANG", "C.UTF-8", 1);
	setenv("TZ", "UTC", 1);
	sigemptyset(&none);
	sigprocmask(SIG_SETMASK, &none, NULL);
}

struct term *term_start(int rows, int cols, const char *const argv[])
{
	struct term *t = calloc(1, sizeof *t);
	struct winsize size = { .ws_row = (unsigned short)rows, .ws_col = (unsigned short)cols };

	if (!t)
		die("calloc");
	t->rows = rows;
	t->cols = cols;
	t->vt = vterm_new(rows, cols);
	vterm_set_utf8(t->vt, 1);
	vterm_output_set_callback(t->vt, on_output, t);
	t->screen = vterm_obtain_screen(t->vt);
	vterm_screen_set_callbacks(t->screen, &callbacks, t);
	vterm_screen_enable_altscreen(t->screen, 1);
	vterm_screen_reset(t->screen, 1);
	t->pid = forkpty(&t->fd, NULL, NULL, &size);
	if (t->pid < 0)
		die("forkpty");
	if (t->pid == 0) {
		child_environment();
		execv(argv[0], (char *const *)argv);
		perror(argv[0]);
		_exit(127);
	}
	fcntl(t->fd, F_SETFD, FD_CLOEXEC);
	fcntl(t->fd, F_SETFL, O_NONBLOCK | fcntl(t->fd, F_GETFL));
	return t;
}

/* Takes what the program wrote; false when nothing waits or its side is closed. */
static bool receive(struct term *t)
{
	char buf[8192];
	ssize_t n = read(t->fd, buf, sizeof buf);

	if (n > 0) {
		t->received += (size_t)n;
		vterm_input_write(t->vt, buf, (size_t)n);
		return true;
	}
	if (n == 0 || (errno != EAGAIN && errno != EINTR))
		t->ended = true; /* Linux reports the hang-up as EIO */
	return false;
}

/* Moves bytes both ways for at most timeout_ms; false once the program's side is closed. */
static bool pump(struct term *t, int timeout_ms)
{
	struct pollfd p = { .fd = t->fd, .events = (short)(POLLIN | (t->out.n ? POLLOUT : 0)) };
	ssize_t n;

	if (t->ended)
		return false;
	if (poll(&p, 1, timeout_ms) <= 0)
		return true;
	if (p.revents & POLLOUT && (n = write(t->fd, t->out.p, t->out.n)) > 0) {
		t->out.n -= (size_t)n;
		memmove(t->out.p, t->out.p + n, t->out.n);
	}
	if (p.revents & (POLLIN | POLLHUP))
		receive(t);
	return !t->ended;
}

static void flush(struct term *t)
{
	long end = now_ms() + WAIT_MS;

	while (t->out.n && now_ms() < end && pump(t, 100))
		;
}

static bool wait_for(struct term *t, const char *text, bool want)
{
	long end = now_ms() + WAIT_MS, left;
	bool found;
	char *s;

	for (;;) {
		s = term_screen(t);
		found = strstr(s, text) != NULL;
		free(s);
		if (found == want)
			return true;
		if ((left = end - now_ms()) <= 0 || !pump(t, (int)left)) {
			s = term_screen(t);
			fprintf(stderr, "waited for %s\"%s\"; the screen is:\n%s",
			        want ? "" : "no ", text, s);
			free(s);
			return false;
		}
	}
}

bool term_wait_text(struct term *t, const char *text)
{
	return wait_for(t, text, true);
}

bool term_wait_gone(struct term *t, const char *text)
{
	return wait_for(t, text, false);
}

int term_wait_exit(struct term *t)
{
	long end = now_ms() + WAIT_MS;

	while (now_ms() < end && pump(t, 50))
		;
	while (!t->reaped && now_ms() < end) {
		t->reaped = waitpid(t->pid, &t->status, WNOHANG) == t->pid;
		if (!t->reaped)
			poll(NULL, 0, 2);
	}
	return t->reaped ? t->status : -1;
}

long long term_drain(struct term *t, int quiet_ms, int limit_ms)
{
	long long start = term_now_ns(), last = 0;

	while (!t->ended) {
		struct pollfd p = { .fd = t->fd, .events = POLLIN };
		long long now;

		if (poll(&p, 1, last ? quiet_ms : limit_ms) <= 0)
			break;
		now = term_now_ns();
		while (receive(t))
			;
		last = now;
		if (now - start > limit_ms * 1000000LL)
			break;
	}
	return last;
}

void term_stop(struct term *t)
{
	if (!t)
		return;
	close(t->fd); /* the program gets SIGHUP */
	for (int i = 0; !t->reaped; i++) {
		if (i == 1000)
			kill(t->pid, SIGKILL);
		t->reaped = waitpid(t->pid, &t->status, WNOHANG) == t->pid;
		if (!t->reaped)
			poll(NULL, 0, 5);
	}
	vterm_free(t->vt);
	free(t->out.p);
	free(t);
}

void term_type(struct term *t, const char *ascii)
{
	for (; *ascii; ascii++)
		vterm_keyboard_unichar(t->vt, (unsigned char)*ascii, VTERM_MOD_NONE);
	flush(t);
}

void term_key(struct term *t, VTermKey key, VTermModifier mod)
{
	vterm_keyboard_key(t->vt, key, mod);
	flush(t);
}

void term_press(struct term *t, int row, int col)
{
	char s[48];

	snprintf(s, sizeof s, "\x1b[<0;%d;%dM", col + 1, row + 1);
	append(&t->out, s, strlen(s));
	flush(t);
}

void term_signal(struct term *t, int number)
{
	kill(t->pid, number);
}

void term_resize(struct term *t, int rows, int cols)
{
	struct winsize size = { .ws_row = (unsigned short)rows, .ws_col = (unsigned short)cols };

	while (receive(t)) /* what was drawn for the old size */
		;
	t->rows = rows;
	t->cols = cols;
	vterm_set_size(t->vt, rows, cols);
	if (ioctl(t->fd, TIOCSWINSZ, &size) < 0)
		die("TIOCSWINSZ");
}

char *term_row(struct term *t, int row)
{
	size_t room = (size_t)t->cols * VTERM_MAX_CHARS_PER_CELL * 4, n;
	char *s = malloc(room + 1);
	VTermRect line = {
		.start_row = row, .end_row = row + 1, .start_col = 0, .end_col = t->cols
	};

	if (!s)
		die("malloc");
	n = vterm_screen_get_text(t->screen, s, room, line);
	while (n && s[n - 1] == ' ')
		n--;
	s[n] = '\0';
	return s;
}

char *term_screen(struct term *t)
{
	struct bytes all = { 0 };

	for (int row = 0; row < t->rows; row++) {
		char *s = term_row(t, row);

		append(&all, s, strlen(s));
		append(&all, "\n", 1);
		free(s);
	}
	return all.p;
}

VTermScreenCell term_cell(struct term *t, int row, int col)
{
	VTermScreenCell cell = { 0 };

	vterm_screen_get_cell(t->screen, (VTermPos){ .row = row, .col = col }, &cell);
	return cell;
}

/* The column that so many characters of a row stand before: wide ones take two cells, and some
 * combine with the one before. */
static int column_after(const struct term *t, int row, int characters)
{
	int col = 0;

	while (characters > 0 && col < t->cols) {
		VTermScreenCell cell = { 0 };
		int n = 0;

		vterm_screen_get_cell(t->screen, (VTermPos){ .row = row, .col = col }, &cell);
		while (n < VTERM_MAX_CHARS_PER_CELL && cell.chars[n])
			n++;
		characters -= n ? n : 1;
		col += cell.width > 1 ? cell.width : 1;
	}
	return col;
}

bool term_find(struct term *t, const char *text, int *row, int *col)
{
	for (int r = 0; r < t->rows; r++) {
		char *s = term_row(t, r), *at = strstr(s, text);
		int characters = 0;

		for (char *p = s; at && p < at; p++)
			characters += ((unsigned char)*p & 0xc0) != 0x80;
		free(s);
		if (!at)
			continue;
		*row = r;
		*col = column_after(t, r, characters);
		return true;
	}
	return false;
}

bool term_altscreen(const struct term *t)
{
	return t->alt;
}

size_t term_bytes(const struct term *t)
{
	return t->received;
}
