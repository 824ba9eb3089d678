/* file.c - see file.h. */
#include "slabwright/file.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define FILE_LIMIT ((size_t)64 << 20)

/* Reads to the end into a growing buffer, which the caller frees whatever comes back. */
static enum status read_all(
        FILE *from, const char *name, char **buffer, size_t *length, struct error *err)
{
	size_t room = 0;

	*length = 0;
	for (;;) {
		if (*length == room) {
			char *moved;

			room = room ? room * 2 : 65536;
			if (room > FILE_LIMIT)
				return error_set(err, STATUS_PLAN,
				        "%s is larger than 64 MB; a plan document is far smaller.",
				        name);
			if (!(moved = realloc(*buffer, room)))
				return error_memory(err);
			*buffer = moved;
		}
		errno = 0;
		*length += fread(*buffer + *length, 1, room - *length, from);
		if (ferror(from))
			return error_set(err, STATUS_PLAN,
			        "%s cannot be read: %s. Give the file of a plan document.", name,
			        strerror(errno ? errno : EIO));
		if (feof(from))
			return STATUS_OK;
	}
}

enum status file_read(
        struct arena *mem, const char *path, const char **text, size_t *length, struct error *err)
{
	bool standard = strcmp(path, "-") == 0;
	const char *name = standard ? "Standard input" : path;
	FILE *from = standard ? stdin : fopen(path, "rb");
	char *buffer = NULL, *kept;
	enum status st;

	if (!from)
		return error_set(err, STATUS_PLAN,
		        "%s cannot be read: %s. Give the name of a plan document, or - for "
		        "standard input.",
		        name, strerror(errno));
	st = read_all(from, name, &buffer, length, err);
	if (!standard)
		fclose(from);
	if (st == STATUS_OK) {
		kept = arena_alloc(mem, *length + 1, 1);
		if (kept)
			memcpy(kept, buffer, *length);
		else
			st = error_memory(err);
		*text = kept;
	}
	free(buffer);
	return st;
}

/* A file system without links (sticks) is looked at first instead. */
bool file_name_new(const char *part, const char *name)
{
	if (link(part, name) == 0) {
		unlink(part);
		return true;
	}
	if (errno == EEXIST)
		return false;
	if (access(name, F_OK) == 0) {
		errno = EEXIST;
		return false;
	}
	return rename(part, name) == 0;
}

static enum status not_written(const char *path, struct error *err)
{
	return error_set(err, STATUS_PLAN,
	        "%s cannot be written: %s. Give a file in a folder that you may write to.", path,
	        strerror(errno ? errno : EIO));
}

/* Writes all of it, to the disk. */
static bool fill(int fd, const char *text)
{
	FILE *to = fdopen(fd, "wb");
	bool good = to && fputs(text, to) != EOF && fflush(to) == 0 && fsync(fd) == 0;

	if (!to)
		close(fd);
	return to && fclose(to) == 0 && good;
}

enum status file_write(
        const char *path, const char *text, bool replace, bool *taken, struct error *err)
{
	char part[4096];
	mode_t mask = umask(0);
	bool good;
	int fd;

	umask(mask);
	*taken = access(path, F_OK) == 0;
	if (*taken && !replace)
		return error_set(err, STATUS_PLAN,
		        "%s: there is a file of that name; nothing was written", path);
	if ((size_t)snprintf(part, sizeof part, "%s.XXXXXX", path) >= sizeof part)
		return error_set(err, STATUS_PLAN, "The name of the file is too long.");
	errno = 0;
	if ((fd = mkstemp(part)) < 0)
		return not_written(path, err);
	fchmod(fd, 0666 & ~mask);
	good = fill(fd, text) && (replace ? rename(part, path) == 0 : file_name_new(part, path));
	if (good)
		return STATUS_OK;
	*taken = errno == EEXIST;
	not_written(path, err);
	unlink(part);
	return STATUS_PLAN;
}
