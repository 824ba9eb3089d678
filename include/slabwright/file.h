/* file.h - files read and written whole. */
#ifndef SLABWRIGHT_FILE_H
#define SLABWRIGHT_FILE_H

#include "slabwright/arena.h"
#include "slabwright/error.h"

/* Reads a plan document of up to 64 MB into the arena, "-" from standard input; a NUL follows the
 * last byte. STATUS_PLAN, naming the file and the remedy. */
enum status file_read(
        struct arena *mem, const char *path, const char **text, size_t *length, struct error *err);

/* Writes the text to a file that is there whole or not at all. Where there is one of that name
 * already, *taken tells, and unless `replace` says so nothing is written (STATUS_PLAN). */
enum status file_write(
        const char *path, const char *text, bool replace, bool *taken, struct error *err);

/* Gives a file that is whole its name, unless something has it: false then, with errno EEXIST. */
bool file_name_new(const char *part, const char *name);

#endif
