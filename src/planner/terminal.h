/* terminal.h - the terminal: the only part that knows ncurses. */
#ifndef SLABWRIGHT_PLANNER_TERMINAL_H
#define SLABWRIGHT_PLANNER_TERMINAL_H

#include "app.h"

/* Takes the terminal over. STATUS_USAGE when there is none. */
enum status terminal_open(bool colour, struct error *err);
void terminal_close(void);
void terminal_resume(void); /* after terminal_close, when the program was stopped and goes on */
bool terminal_is_utf8(void);
void terminal_size(int *rows, int *cols);

/* The next key that waits (enum key or a character); false when none does. */
bool terminal_key(struct app *app, int *key);

/* Shows the frame, with the terminal's own cursor at a place of it (row < 0: hidden). */
void terminal_show(const struct cells *cells, int row, int col);

#endif
