/* term.h - a program on a pseudo-terminal, and the screen it has drawn. */
#ifndef TESTS_TERM_H
#define TESTS_TERM_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>
#include <vterm.h>

struct term;

/* Starts a program (argv ends with NULL) in the locale C.UTF-8 as xterm-256color. */
struct term *term_start(int rows, int cols, const char *const argv[]);
void term_stop(struct term *t); /* hangs up, waits, frees; NULL is fine */

/* Input, by the terminal's key encoder. */
void term_type(struct term *t, const char *ascii);
void term_key(struct term *t, VTermKey key, VTermModifier mod);
void term_press(struct term *t, int row, int col); /* left button */
void term_resize(struct term *t, int rows, int cols);
void term_signal(struct term *t, int number);

/* Waiting. Each gives false on timeout, after printing the screen to stderr. */
bool term_wait_text(struct term *t, const char *text);
bool term_wait_gone(struct term *t, const char *text);
int term_wait_exit(struct term *t); /* wait status, or -1 on timeout */
/* Reads until nothing has come for quiet_ms; returns when the last byte came, in ns of
 * CLOCK_MONOTONIC, 0 when none did within limit_ms. */
long long term_drain(struct term *t, int quiet_ms, int limit_ms);
long long term_now_ns(void);

/* Reading. Strings are the caller's to free. */
char *term_row(struct term *t, int row); /* UTF-8, trailing blanks removed */
char *term_screen(struct term *t); /* every row, each with a newline */
VTermScreenCell term_cell(struct term *t, int row, int col);
bool term_find(struct term *t, const char *text, int *row, int *col); /* column counted in cells */
bool term_altscreen(const struct term *t);
size_t term_bytes(const struct term *t); /* received so far */

#endif
