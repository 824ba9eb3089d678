/* json_scan.c - where a text stops being JSON.
 *
 * SQLite says whether a text is JSON but not where it is not, and its later versions read more than
 * RFC 8259 allows. This walks the text once and remembers the first fault. */
#include "doc.h"
#include "entries.h"

#include <string.h>

enum { DEEPEST = 40 };

struct scan {
	const char *at, *end;
	const char *fault;
	int depth;
};

static bool fail(struct scan *s, const char *fault)
{
	s->fault = fault;
	return false;
}

static void blanks(struct scan *s)
{
	while (s->at < s->end && strchr(" \t\r\n", *s->at) && *s->at)
		s->at++;
}

static bool digit(const struct scan *s)
{
	return s->at < s->end && *s->at >= '0' && *s->at <= '9';
}

static bool take(struct scan *s, char c)
{
	if (s->at >= s->end || *s->at != c)
		return false;
	s->at++;
	return true;
}

static bool digits(struct scan *s)
{
	if (!digit(s))
		return fail(s, "a digit should stand here");
	while (digit(s))
		s->at++;
	return true;
}

static bool number(struct scan *s)
{
	take(s, '-');
	if (take(s, '0')) {
		if (digit(s))
			return fail(s, "a number may not begin with 0 and another digit");
	} else if (!digits(s)) {
		return false;
	}
	if (take(s, '.') && !digits(s))
		return false;
	if (take(s, 'e') || take(s, 'E')) {
		if (!take(s, '+'))
			take(s, '-');
		return digits(s);
	}
	return true;
}

static bool escape(struct scan *s)
{
	static const char hex[] = "0123456789abcdefABCDEF";

	if (s->at >= s->end || !strchr("\"\\/bfnrtu", *s->at) || !*s->at)
		return fail(s, "a backslash may only stand before one of \" \\ / b f n r t u");
	if (*s->at++ != 'u')
		return true;
	if (s->end - s->at < 4)
		return fail(s, "four hexadecimal digits should follow \\u");
	if (memcmp(s->at, "0000", 4) == 0)
		return fail(s, "the character \\u0000 cannot be kept");
	for (int i = 0; i < 4; i++, s->at++)
		if (!*s->at || !strchr(hex, *s->at))
			return fail(s, "four hexadecimal digits should follow \\u");
	return true;
}

static bool string(struct scan *s)
{
	if (!take(s, '"'))
		return fail(s, "a text in double quotes should stand here");
	while (s->at < s->end && *s->at != '"') {
		unsigned char c = (unsigned char)*s->at;
		size_t n = utf8_sequence((const unsigned char *)s->at, (size_t)(s->end - s->at));

		if (c < 0x20)
			return fail(
			        s, "a control character must be written as an escape, like \\n");
		if (!n)
			return fail(s, "this byte is not UTF-8");
		s->at += n;
		if (c == '\\' && !escape(s))
			return false;
	}
	return take(s, '"') || fail(s, "the text ends inside a string");
}

static bool word(struct scan *s, const char *w)
{
	size_t n = strlen(w);

	if ((size_t)(s->end - s->at) < n || memcmp(s->at, w, n) != 0)
		return fail(s, "a value should stand here: a number, a text in double quotes, "
		               "true, false, null, [ or {");
	s->at += n;
	return true;
}

static bool value(struct scan *s);

static bool members(struct scan *s, bool object)
{
	char close = object ? '}' : ']';

	s->at++;
	blanks(s);
	if (take(s, close))
		return true;
	for (;;) {
		blanks(s);
		if (object) {
			if (!string(s))
				return false;
			blanks(s);
			if (!take(s, ':'))
				return fail(s, "a ':' should stand here");
		}
		if (!value(s))
			return false;
		blanks(s);
		if (take(s, close))
			return true;
		if (!take(s, ','))
			return fail(s, object ? "a ',' or '}' should stand here"
			                      : "a ',' or ']' should stand here");
	}
}

static bool value(struct scan *s)
{
	bool good;

	blanks(s);
	if (s->at >= s->end)
		return fail(s, "the text ends too early");
	switch (*s->at) {
	case '{':
	case '[':
		if (++s->depth > DEEPEST)
			return fail(s, "the values are nested too deeply");
		good = members(s, *s->at == '{');
		s->depth--;
		return good;
	case '"':
		return string(s);
	case 't':
		return word(s, "true");
	case 'f':
		return word(s, "false");
	case 'n':
		return word(s, "null");
	default:
		return digit(s) || *s->at == '-' ? number(s) : word(s, "{");
	}
}

bool json_scan(const char *text, size_t length, size_t *line, size_t *column, const char **fault)
{
	struct scan s = { .at = text, .end = text + length };

	if (value(&s)) {
		blanks(&s);
		if (s.at == s.end)
			return true;
		fail(&s, "nothing more may stand here");
	}
	*fault = s.fault;
	*line = *column = 1;
	for (const char *c = text; c < s.at; c++) {
		if (*c == '\n') {
			++*line;
			*column = 1;
		} else if (((unsigned char)*c & 0xC0) != 0x80) {
			++*column;
		}
	}
	return false;
}
