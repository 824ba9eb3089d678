/* text.h - what may stand as a name. */
#ifndef SLABWRIGHT_TEXT_H
#define SLABWRIGHT_TEXT_H

#include "slabwright/error.h"

#include <stddef.h>

#define NAME_LONGEST 200 /* bytes */

/* Refuses (STATUS_PLAN) a text that is too short (least bytes), over NAME_LONGEST bytes or not
 * UTF-8; `place` says which. NULL is an empty text. */
enum status text_check(const char *text, size_t least, const char *place, struct error *err);
/* The same for notes: any length up to NOTES_LONGEST. */
#define NOTES_LONGEST 4000 /* bytes */
enum status notes_check(const char *text, const char *place, struct error *err);
/* Writes a code point; gives the bytes used. */
size_t utf8_encode(char out[4], unsigned ch);
/* Whether n bytes are UTF-8 (RFC 3629). */
bool utf8_valid(const char *text, size_t n);
/* The length of the sequence that starts here, 0 where it is none. */
size_t utf8_sequence(const unsigned char *text, size_t n);

#endif
