/* prompt.c - the line editor at the foot.
 *
 * A value that is offered is replaced by typing, or kept for mending by Backspace or an arrow key.
 * When the text is refused it stays as it was typed, and the message above says why. */
#include "app.h"

#include "slabwright/text.h"

#include <stdio.h>
#include <string.h>

enum { LINE_MOST = 239 };

struct prompt *prompt_open(struct app *app, const char *label, const char *hint, const char *text,
        bool (*done)(struct app *app, const char *text))
{
	struct prompt *p = &app->prompt;

	*p = (struct prompt){ .on = true, .done = done, .most = LINE_MOST };
	snprintf(p->label, sizeof p->label, "%s", label);
	snprintf(p->hint, sizeof p->hint, "%s", hint);
	if (strlen(text) < sizeof p->text)
		snprintf(p->text, sizeof p->text, "%s", text);
	p->length = strlen(p->text);
	p->offered = p->length > 0;
	app->message[0] = '\0';
	return p;
}

static void type(struct app *app, int key)
{
	struct prompt *p = &app->prompt;
	char bytes[5];
	size_t n = utf8_encode(bytes, (unsigned)key);

	if (p->offered)
		p->length = 0;
	p->offered = false;

	if (p->length + n > p->most) {
		app_refuse(app, "No more fits in one line: %zu bytes at most.", p->most);
		return;
	}
	memcpy(p->text + p->length, bytes, n);
	p->length += n;
	p->text[p->length] = '\0';
}

static void erase(struct prompt *p)
{
	while (p->length && ((unsigned char)p->text[--p->length] & 0xc0) == 0x80)
		;
	p->text[p->length] = '\0';
}

/* Hands the text over; when it is refused, the prompt stands as before. */
static void submit(struct app *app, int key)
{
	struct prompt was = app->prompt;
	bool taken;

	app->prompt.on = false;
	taken = key ? was.arrow(app, key, was.text) : was.done(app, was.text);
	if (!taken) {
		if (!app->message[0])
			app_refuse(app, "That cannot be taken.");
		app->prompt = was;
	}
}

void prompt_key(struct app *app, int key)
{
	struct prompt *p = &app->prompt;

	switch (key) {
	case KEY_OF_ENTER:
		submit(app, 0);
		return;
	case KEY_OF_ESCAPE:
		p->on = false;
		app_say(app, "Left as it was.");
		return;
	case KEY_OF_BACKSPACE:
		p->offered = false;
		erase(p);
		return;
	case KEY_OF_DELETE:
		p->length = 0;
		p->text[0] = '\0';
		return;
	case KEY_OF_ARROW_LEFT:
	case KEY_OF_ARROW_RIGHT:
	case KEY_OF_ARROW_UP:
	case KEY_OF_ARROW_DOWN:
	case KEY_OF_HOME:
	case KEY_OF_END:
		p->offered = false;
		if (p->arrow && key < KEY_OF_FAST_LEFT)
			submit(app, key);
		return;
	default:
		if (key >= ' ' && key != 0x7f && key < KEY_OF_ARROW_LEFT)
			type(app, key);
	}
}

bool typed_length(struct app *app, const char *text, enum unit unit, int64_t *um)
{
	struct error err;

	if (length_parse(text, unit, um, &err) != STATUS_OK)
		return app_fail(app, &err);
	return true;
}

bool two_lengths(struct app *app, const char *text, enum unit unit, int64_t *a, int64_t *b)
{
	char first[240];
	const char *cut = strpbrk(text, ";xX*");

	if (!cut) {
		cut = text + strspn(text, " ");
		cut = strchr(cut, ' ');
	}
	if (!cut || (size_t)(cut - text) >= sizeof first) {
		app_refuse(app, "Two lengths are needed, with ; or x or a blank between them: %s",
		        unit == UNIT_MM ? "600 x 300" : "3,62 ; 4,15");
		return false;
	}
	snprintf(first, sizeof first, "%.*s", (int)(cut - text), text);
	return typed_length(app, first, unit, a) && typed_length(app, cut + 1, unit, b);
}
