/* json.h - writing JSON (RFC 8259).
 *
 * A writer appends to a text that it owns. Commas, indentation and escapes are its business:
 * members come out one a line at the outer levels; what is opened with `tight` stays on one line.
 * Numbers print so that they read back as the same value (shortest form), and not-a-number or
 * infinity prints null. */
#ifndef SLABWRIGHT_JSON_H
#define SLABWRIGHT_JSON_H

#include "slabwright/arena.h"

#include <stdbool.h>
#include <stdint.h>

struct json {
	char *text; /* terminated; NULL until something is written */
	size_t length, capacity;
	int depth, tight; /* depth of nesting; depth at which one-line writing began, 0 none */
	uint64_t arrays; /* one bit a depth: set for an array */
	bool started; /* something stands before in this object or array */
	bool failed; /* memory is gone; what follows is ignored */
};

/* A writer starts as all zeroes. json_free frees its text. */
void json_free(struct json *j);

/* key is NULL in an array and at the top. */
void json_object(struct json *j, const char *key);
void json_array(struct json *j, const char *key);
void json_object_tight(struct json *j, const char *key);
void json_array_tight(struct json *j, const char *key);
void json_end(struct json *j); /* closes the innermost; after the outermost a newline follows */

void json_text(struct json *j, const char *key, const char *value); /* value NULL prints null */
void json_int(struct json *j, const char *key, int64_t value);
void json_real(struct json *j, const char *key, double value);
void json_bool(struct json *j, const char *key, bool value);
void json_null(struct json *j, const char *key);
void json_mm(struct json *j, const char *key, int64_t um); /* um as millimetres, exactly */
void json_degrees(
        struct json *j, const char *key, int64_t udeg); /* microdegrees as degrees, exactly */

#endif
