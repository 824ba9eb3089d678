/* keys.h - keys that are not characters. A character's key is its code point. */
#ifndef SLABWRIGHT_PLANNER_KEYS_H
#define SLABWRIGHT_PLANNER_KEYS_H

enum key {
	KEY_OF_TAB = 9,
	KEY_OF_ENTER = 13,
	KEY_OF_ESCAPE = 27,
	KEY_OF_ARROW_LEFT = 0x110000, /* beyond the last code point */
	KEY_OF_ARROW_RIGHT,
	KEY_OF_ARROW_UP,
	KEY_OF_ARROW_DOWN,
	KEY_OF_FAST_LEFT, /* with Shift */
	KEY_OF_FAST_RIGHT,
	KEY_OF_FAST_UP,
	KEY_OF_FAST_DOWN,
	KEY_OF_BACK_TAB,
	KEY_OF_BACKSPACE,
	KEY_OF_DELETE,
	KEY_OF_HOME,
	KEY_OF_END,
	KEY_OF_PAGE_UP,
	KEY_OF_PAGE_DOWN,
	KEY_OF_PRESS, /* the mouse, at app->press_row, press_col */
	KEY_OF_WHEEL_UP,
	KEY_OF_WHEEL_DOWN,
	KEY_OF_NOTHING, /* handled by the terminal itself: a resize, an unknown key */
};

#endif
