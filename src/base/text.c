/* text.c - what may stand as a name. */
#include "slabwright/text.h"

#include <string.h>

size_t utf8_sequence(const unsigned char *text, size_t n)
{
	unsigned char c = n ? text[0] : 0xFF;
	size_t length = c < 0x80                 ? 1
	                : c >= 0xC2 && c <= 0xDF ? 2
	                : (c & 0xF0) == 0xE0     ? 3
	                : c >= 0xF0 && c <= 0xF4 ? 4
	                                         : 0;

	if (!length || length > n)
		return 0;
	for (size_t i = 1; i < length; i++)
		if ((text[i] & 0xC0) != 0x80)
			return 0;
	/* Overlong forms, surrogates, and what lies beyond the last code point. */
	if ((c == 0xE0 && text[1] < 0xA0) || (c == 0xED && text[1] > 0x9F) ||
	        (c == 0xF0 && text[1] < 0x90) || (c == 0xF4 && text[1] > 0x8F))
		return 0;
	return length;
}

bool utf8_valid(const char *text, size_t n)
{
	for (size_t at = 0, step; at < n; at += step) {
		step = utf8_sequence((const unsigned char *)text + at, n - at);
		if (!step)
			return false;
	}
	return true;
}

size_t utf8_encode(char out[4], unsigned ch)
{
	if (ch < 0x80) {
		out[0] = (char)ch;
		return 1;
	}
	if (ch < 0x800) {
		out[0] = (char)(0xc0 | ch >> 6);
		out[1] = (char)(0x80 | (ch & 0x3f));
		return 2;
	}
	if (ch < 0x10000) {
		out[0] = (char)(0xe0 | ch >> 12);
		out[1] = (char)(0x80 | (ch >> 6 & 0x3f));
		out[2] = (char)(0x80 | (ch & 0x3f));
		return 3;
	}
	out[0] = (char)(0xf0 | ch >> 18);
	out[1] = (char)(0x80 | (ch >> 12 & 0x3f));
	out[2] = (char)(0x80 | (ch >> 6 & 0x3f));
	out[3] = (char)(0x80 | (ch & 0x3f));
	return 4;
}

enum status notes_check(const char *text, const char *place, struct error *err)
{
	size_t n = text ? strlen(text) : 0;

	if (n > NOTES_LONGEST)
		return error_set(err, STATUS_PLAN, "%s: %zu bytes long; give at most %d", place, n,
		        NOTES_LONGEST);
	if (n && !utf8_valid(text, n))
		return error_set(err, STATUS_PLAN, "%s: not UTF-8 text; type it again", place);
	return STATUS_OK;
}

enum status text_check(const char *text, size_t least, const char *place, struct error *err)
{
	size_t n = text ? strlen(text) : 0;

	if (n < least)
		return error_set(err, STATUS_PLAN, "%s: empty; give from 1 to %d bytes", place,
		        NAME_LONGEST);
	if (n > NAME_LONGEST)
		return error_set(err, STATUS_PLAN, "%s: %zu bytes long; give at most %d", place, n,
		        NAME_LONGEST);
	if (n && !utf8_valid(text, n))
		return error_set(err, STATUS_PLAN, "%s: not UTF-8 text; type it again", place);
	return STATUS_OK;
}
