/* error.h - why something could not be done.
 *
 * Whoever finds a fault writes the message, naming the place and the remedy; everyone above only
 * passes the status on. A status is also the program's exit status. */
#ifndef SLABWRIGHT_ERROR_H
#define SLABWRIGHT_ERROR_H

#include <stdbool.h>

enum status {
	STATUS_OK = 0,
	STATUS_PLAN = 1, /* a plan, or a document that holds one, that cannot be worked out */
	STATUS_USAGE = 2, /* a command or a typed value used wrongly */
	STATUS_STORE = 3, /* the store cannot be opened, read or written */
	STATUS_MEMORY = 4, /* no memory left */
};

struct error {
	enum status status;
	char text[600]; /* UTF-8, one sentence or two, no newline */
};

/* Writes the message (printf style) and returns the status, so that a caller can say
 * `return error_set(err, STATUS_PLAN, ...)`. err may be NULL: then only the status is passed on.
 * Control characters that came in through an argument are replaced by '?'. */
enum status error_set(struct error *err, enum status status, const char *format, ...)
        __attribute__((format(printf, 3, 4)));

/* Puts "PLACE: " before the message of a plan that cannot be worked out, and passes the status on:
 * for whoever knows the file or the variant that the finder of the fault does not. Other faults
 * stay as they are. */
enum status error_place(struct error *err, enum status status, const char *place);

/* error_set with STATUS_MEMORY and the usual words. */
enum status error_memory(struct error *err);

#endif
