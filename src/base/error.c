/* error.c - the one place where a message is put together. */
#include "slabwright/error.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Cuts an unfinished UTF-8 sequence off the end of a text that was shortened. */
static void trim_utf8(char *text)
{
	size_t n = strlen(text), back = 0;

	while (back < 4 && back < n && ((unsigned char)text[n - 1 - back] & 0xC0) == 0x80)
		back++;
	if (back < n) {
		unsigned char lead = (unsigned char)text[n - 1 - back];
		size_t want = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : lead >= 0xC0 ? 1 : 0;

		if (want != back)
			text[n - 1 - back] = '\0';
	}
}

enum status error_set(struct error *err, enum status status, const char *format, ...)
{
	va_list args;

	if (!err)
		return status;
	err->status = status;
	va_start(args, format);
	vsnprintf(err->text, sizeof err->text, format, args);
	va_end(args);
	trim_utf8(err->text);
	for (char *c = err->text; *c; c++)
		if ((unsigned char)*c < 0x20 || *c == 0x7F)
			*c = '?';
	return status;
}

enum status error_place(struct error *err, enum status status, const char *place)
{
	struct error told;

	if (!err || status != STATUS_PLAN)
		return status;
	told = *err;
	return error_set(err, status, "%.100s: %s", place, told.text);
}

enum status error_memory(struct error *err)
{
	return error_set(
	        err, STATUS_MEMORY, "There is no memory left; close other programs and try again.");
}
