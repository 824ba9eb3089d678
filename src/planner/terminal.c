/* terminal.c - the terminal, by ncurses: keys in, a grid of cells out. */
#include "terminal.h"

#include <curses.h>
#include <langinfo.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const struct {
	int from;
	enum key to;
} keys[] = {
	{ '\r', KEY_OF_ENTER },
	{ '\n', KEY_OF_ENTER },
	{ KEY_ENTER, KEY_OF_ENTER },
	{ KEY_LEFT, KEY_OF_ARROW_LEFT },
	{ KEY_RIGHT, KEY_OF_ARROW_RIGHT },
	{ KEY_UP, KEY_OF_ARROW_UP },
	{ KEY_DOWN, KEY_OF_ARROW_DOWN },
	{ KEY_SLEFT, KEY_OF_FAST_LEFT },
	{ KEY_SRIGHT, KEY_OF_FAST_RIGHT },
	{ KEY_SR, KEY_OF_FAST_UP },
	{ KEY_SF, KEY_OF_FAST_DOWN },
	{ KEY_BTAB, KEY_OF_BACK_TAB },
	{ KEY_BACKSPACE, KEY_OF_BACKSPACE },
	{ 127, KEY_OF_BACKSPACE },
	{ 8, KEY_OF_BACKSPACE },
	{ KEY_DC, KEY_OF_DELETE },
	{ KEY_HOME, KEY_OF_HOME },
	{ KEY_END, KEY_OF_END },
	{ KEY_PPAGE, KEY_OF_PAGE_UP },
	{ KEY_NPAGE, KEY_OF_PAGE_DOWN },
};

enum { PAIR_NONE, PAIR_RED, PAIR_GREEN, PAIR_YELLOW, PAIR_BLUE, PAIR_CYAN, PAIR_MAGENTA };

static const struct {
	attr_t attributes;
	short pair;
} looks[STYLES] = {
	[STYLE_PLAIN] = { A_NORMAL, PAIR_NONE },
	[STYLE_QUIET] = { A_DIM, PAIR_NONE },
	[STYLE_STRONG] = { A_BOLD, PAIR_NONE },
	[STYLE_TITLE] = { A_BOLD, PAIR_CYAN },
	[STYLE_KEY] = { A_BOLD, PAIR_YELLOW },
	[STYLE_HERE] = { A_REVERSE, PAIR_NONE },
	[STYLE_CURSOR] = { A_REVERSE | A_BOLD, PAIR_YELLOW },
	[STYLE_EDGE] = { A_BOLD, PAIR_NONE },
	[STYLE_WALL] = { A_BOLD, PAIR_RED },
	[STYLE_NUMBER] = { A_NORMAL, PAIR_CYAN },
	[STYLE_WATER] = { A_BOLD, PAIR_BLUE },
	[STYLE_JOINT] = { A_NORMAL, PAIR_NONE },
	[STYLE_CUT] = { A_NORMAL, PAIR_YELLOW },
	[STYLE_SLIVER] = { A_BOLD, PAIR_RED },
	[STYLE_WARN] = { A_BOLD, PAIR_YELLOW },
	[STYLE_GOOD] = { A_NORMAL, PAIR_GREEN },
};

static void start_colours(void)
{
	static const short colours[] = { COLOR_RED, COLOR_GREEN, COLOR_YELLOW, COLOR_BLUE,
		COLOR_CYAN, COLOR_MAGENTA };

	if (!has_colors() || start_color() == ERR)
		return;
	use_default_colors();
	for (short i = 0; i < (short)(sizeof colours / sizeof colours[0]); i++)
		init_pair((short)(i + 1), colours[i], -1);
}

static void set_modes(void)
{
	cbreak();
	noecho();
	nonl();
	keypad(stdscr, TRUE);
	nodelay(stdscr, TRUE);
	set_escdelay(25);
	mousemask(BUTTON1_PRESSED | BUTTON1_CLICKED | BUTTON4_PRESSED | BUTTON5_PRESSED, NULL);
	mouseinterval(0);
}

enum status terminal_open(bool colour, struct error *err)
{
	if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO))
		return error_set(err, STATUS_USAGE,
		        "the planner needs a terminal for both input and output");
	if (!newterm(NULL, stdout, stdin))
		return error_set(err, STATUS_USAGE,
		        "this terminal's kind (TERM) is not known here: set TERM to one that is, "
		        "as xterm");
	if (colour)
		start_colours();
	set_modes();
	return STATUS_OK;
}

void terminal_close(void)
{
	if (!isendwin())
		endwin();
}

void terminal_resume(void)
{
	set_modes();
	clearok(curscr, TRUE);
	refresh();
}

bool terminal_is_utf8(void)
{
	return strcmp(nl_langinfo(CODESET), "UTF-8") == 0;
}

void terminal_size(int *rows, int *cols)
{
	getmaxyx(stdscr, *rows, *cols);
}

static int mouse_key(struct app *app)
{
	MEVENT event;

	if (getmouse(&event) != OK)
		return KEY_OF_NOTHING;
	app->press_row = event.y;
	app->press_col = event.x;
	if (event.bstate & BUTTON4_PRESSED)
		return KEY_OF_WHEEL_UP;
	if (event.bstate & BUTTON5_PRESSED)
		return KEY_OF_WHEEL_DOWN;
	return event.bstate & (BUTTON1_PRESSED | BUTTON1_CLICKED) ? KEY_OF_PRESS : KEY_OF_NOTHING;
}

bool terminal_key(struct app *app, int *key)
{
	wint_t c;
	int rc = get_wch(&c);

	if (rc == ERR)
		return false;
	*key = rc == KEY_CODE_YES ? KEY_OF_NOTHING : (int)c;
	if (rc == KEY_CODE_YES && c == KEY_MOUSE) {
		*key = mouse_key(app);
		return true;
	}
	for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
		if (keys[i].from == (int)c && (rc == KEY_CODE_YES) == (keys[i].from >= KEY_MIN))
			*key = (int)keys[i].to;
	return true;
}

void terminal_show(const struct cells *cells, int row, int col)
{
	for (int y = 0; y < cells->rows; y++) {
		for (int x = 0; x < cells->cols; x++) {
			const struct cell *cell = &cells->at[y * cells->cols + x];
			wchar_t text[CELL_CHARS + 1] = { 0 };
			cchar_t out;

			if (!cell->ch[0])
				continue;
			memcpy(text, cell->ch, sizeof cell->ch);
			setcchar(&out, text, looks[cell->style].attributes,
			        has_colors() ? looks[cell->style].pair : 0, NULL);
			mvadd_wch(y, x, &out);
		}
	}
	curs_set(row >= 0 ? 1 : 0);
	if (row >= 0)
		move(row, col);
	refresh();
}
