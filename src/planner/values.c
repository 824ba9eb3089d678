/* values.c - values of things, by their description. */
#include "values.h"

#include <stdio.h>
#include <string.h>

static int64_t number_at(const void *thing, size_t offset)
{
	int64_t v;

	memcpy(&v, (const char *)thing + offset, sizeof v);
	return v;
}

static const char *text_at(const void *thing, size_t offset)
{
	const char *text;

	memcpy(&text, (const char *)thing + offset, sizeof text);
	return text ? text : "";
}

/* The word that a turned value has now: its place. */
static int word_at(const struct form_value *v, const void *thing)
{
	bool yes;
	int word;

	if (v->value == VALUE_SWITCH) {
		memcpy(&yes, (const char *)thing + v->offset, sizeof yes);
		return yes ? 1 : 0;
	}
	memcpy(&word, (const char *)thing + v->offset, sizeof word);
	return word;
}

static const char *place_words(
        const struct form_value *v, const void *thing, char *buf, size_t size)
{
	char x[32], y[32];

	if (v->optional && number_at(thing, v->offset) == NO_READING)
		return "";
	snprintf(buf, size, "%s ; %s", metres_exact(x, number_at(thing, v->offset)),
	        metres_exact(y, number_at(thing, v->offset + sizeof(int64_t))));
	return buf;
}

const char *thing_words(const struct form_value *v, const void *thing, char *buf, size_t size)
{
	switch (v->value) {
	case VALUE_TEXT:
		return text_at(thing, v->offset);
	case VALUE_TURN:
	case VALUE_SWITCH:
		return v->words[word_at(v, thing)];
	case VALUE_PLACE:
		return place_words(v, thing, buf, size);
	case VALUE_DO:
		return v->hint;
	default:
		return value_print(buf, size, (enum value)v->value, number_at(thing, v->offset));
	}
}

const char *thing_offered(const struct form_value *v, const void *thing, char *buf, size_t size)
{
	if (v->value >= PLAIN_VALUES)
		return thing_words(v, thing, buf, size);
	return value_offered(buf, size, (enum value)v->value, number_at(thing, v->offset));
}

static bool text_typed(struct app *app, const struct form_value *v, const char *text, void *thing)
{
	if (strlen(text) > 119) {
		app_refuse(app, "A name has 119 bytes at most.");
		return false;
	}
	memcpy((char *)thing + v->offset, &text, sizeof text);
	return true;
}

bool thing_typed(struct app *app, const struct form_value *v, const char *text, void *thing)
{
	int64_t typed[2];

	if (v->value == VALUE_TEXT)
		return text_typed(app, v, text, thing);
	if (v->value == VALUE_PLACE) {
		if (v->optional && !*text)
			typed[0] = typed[1] = NO_READING;
		else if (!two_lengths(app, text, UNIT_M, &typed[0], &typed[1]))
			return false;
		memcpy((char *)thing + v->offset, typed, sizeof typed);
		return true;
	}
	if (!value_typed(app, (enum value)v->value, text, &typed[0]))
		return false;
	memcpy((char *)thing + v->offset, &typed[0], sizeof typed[0]);
	return true;
}

bool thing_turns(const struct form_value *v)
{
	return v->value == VALUE_TURN || v->value == VALUE_SWITCH;
}

bool thing_turned(const struct form_value *v, void *thing)
{
	int next;
	bool yes;

	if (!thing_turns(v))
		return false;
	next = (word_at(v, thing) + 1) % v->word_count;
	yes = next != 0;
	if (v->value == VALUE_SWITCH)
		memcpy((char *)thing + v->offset, &yes, sizeof yes);
	else
		memcpy((char *)thing + v->offset, &next, sizeof next);
	return true;
}
