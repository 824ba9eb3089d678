/* json.c - a text that grows, and what must stand between two values. */
#include "slabwright/json.h"
#include "slabwright/units.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DEEPEST = 60 };

void json_free(struct json *j)
{
	free(j->text);
	*j = (struct json){ 0 };
}

static void append(struct json *j, const char *s, size_t n)
{
	if (j->failed)
		return;
	if (j->length + n + 1 > j->capacity) {
		size_t room = j->capacity ? j->capacity * 2 : 1024;
		char *moved;

		while (room < j->length + n + 1)
			room *= 2;
		moved = realloc(j->text, room);
		if (!moved) {
			j->failed = true;
			return;
		}
		j->text = moved;
		j->capacity = room;
	}
	memcpy(j->text + j->length, s, n);
	j->length += n;
	j->text[j->length] = '\0';
}

static void put(struct json *j, const char *s)
{
	append(j, s, strlen(s));
}

static void put_quoted(struct json *j, const char *s)
{
	put(j, "\"");
	for (const char *from = s;; s++) {
		unsigned char c = (unsigned char)*s;
		char escape[8];

		if (c >= 0x20 && c != '"' && c != '\\')
			continue;
		append(j, from, (size_t)(s - from));
		if (!c)
			break;
		if (c == '"' || c == '\\')
			snprintf(escape, sizeof escape, "\\%c", c);
		else if (c == '\n')
			snprintf(escape, sizeof escape, "\\n");
		else if (c == '\t')
			snprintf(escape, sizeof escape, "\\t");
		else
			snprintf(escape, sizeof escape, "\\u%04x", c);
		put(j, escape);
		from = s + 1;
	}
	put(j, "\"");
}

static void new_line(struct json *j)
{
	put(j, "\n");
	for (int i = 0; i < j->depth; i++)
		put(j, "  ");
}

/* What stands before a value: comma, white space, key. */
static void lead(struct json *j, const char *key)
{
	if (j->started)
		put(j, j->tight ? ", " : ",");
	if (j->depth && !j->tight)
		new_line(j);
	else if (j->depth && !j->started && !(j->arrays >> j->depth & 1))
		put(j, " ");
	if (key) {
		put_quoted(j, key);
		put(j, ": ");
	}
	j->started = true;
}

static void open(struct json *j, const char *key, bool array, bool tight)
{
	lead(j, key);
	if (j->depth >= DEEPEST) {
		j->failed = true;
		return;
	}
	put(j, array ? "[" : "{");
	j->depth++;
	j->arrays &= ~(UINT64_C(1) << j->depth);
	if (array)
		j->arrays |= UINT64_C(1) << j->depth;
	if (tight && !j->tight)
		j->tight = j->depth;
	j->started = false;
}

void json_object(struct json *j, const char *key)
{
	open(j, key, false, false);
}

void json_array(struct json *j, const char *key)
{
	open(j, key, true, false);
}

void json_object_tight(struct json *j, const char *key)
{
	open(j, key, false, true);
}

void json_array_tight(struct json *j, const char *key)
{
	open(j, key, true, true);
}

void json_end(struct json *j)
{
	bool array = j->arrays >> j->depth & 1, filled = j->started;

	j->depth--;
	if (filled && !j->tight)
		new_line(j);
	else if (filled && !array)
		put(j, " ");
	put(j, array ? "]" : "}");
	if (j->tight > j->depth)
		j->tight = 0;
	j->started = true;
	if (!j->depth)
		put(j, "\n");
}

void json_text(struct json *j, const char *key, const char *value)
{
	lead(j, key);
	if (value)
		put_quoted(j, value);
	else
		put(j, "null");
}

void json_int(struct json *j, const char *key, int64_t value)
{
	char buf[32];

	lead(j, key);
	snprintf(buf, sizeof buf, "%lld", (long long)value);
	put(j, buf);
}

void json_real(struct json *j, const char *key, double value)
{
	char buf[40];

	lead(j, key);
	if (!isfinite(value)) {
		put(j, "null");
		return;
	}
	for (int digits = 9; digits <= 17; digits++) {
		snprintf(buf, sizeof buf, "%.*g", digits, value);
		if (strtod(buf, NULL) == value)
			break;
	}
	/* The program runs with the decimal point of the C locale for numbers; see main.c. */
	put(j, buf);
}

void json_bool(struct json *j, const char *key, bool value)
{
	lead(j, key);
	put(j, value ? "true" : "false");
}

void json_null(struct json *j, const char *key)
{
	lead(j, key);
	put(j, "null");
}

void json_mm(struct json *j, const char *key, int64_t um)
{
	char buf[40];

	lead(j, key);
	put(j, mm_print(buf, sizeof buf, um));
}

void json_degrees(struct json *j, const char *key, int64_t udeg)
{
	char buf[40];

	lead(j, key);
	put(j, angle_print(buf, sizeof buf, udeg));
}
