/* outfile.c - a file that is there whole or not at all: written under a name of its own in the same
 * folder, brought to the disk, then renamed. */
#include "target.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static enum status refuse(const char *path, const char *why, struct error *err)
{
	return error_set(err, STATUS_PLAN,
	        "%s cannot be written: %s. Give --to a file in a folder that you may write to.",
	        path, why);
}

/* What stands there already must be a file; a link is followed. */
static enum status look_at_place(const char *path, char **real, mode_t *mode, struct error *err)
{
	struct stat there;
	mode_t mask = umask(0);

	umask(mask);
	*mode = 0666 & ~mask;
	*real = realpath(path, NULL);
	if (!*real) {
		*real = strdup(path);
		return *real ? STATUS_OK : error_memory(err);
	}
	if (stat(*real, &there) != 0)
		return refuse(path, strerror(errno), err);
	if (S_ISDIR(there.st_mode))
		return refuse(path, "it is a folder", err);
	if (!S_ISREG(there.st_mode))
		return refuse(path, "it is no ordinary file", err);
	if (access(*real, W_OK) != 0)
		return refuse(path, strerror(errno), err);
	*mode = there.st_mode & 07777;
	return STATUS_OK;
}

enum status outfile_open(struct outfile *f, const char *path, struct error *err)
{
	static const char ending[] = ".XXXXXX";
	size_t length;
	mode_t mode;
	int fd;
	enum status st;

	memset(f, 0, sizeof *f);
	if ((st = look_at_place(path, &f->path, &mode, err)) != STATUS_OK)
		return st;
	length = strlen(f->path);
	if (!(f->beside = malloc(length + sizeof ending)))
		return error_memory(err);
	memcpy(f->beside, f->path, length);
	memcpy(f->beside + length, ending, sizeof ending);
	fd = mkstemp(f->beside);
	if (fd < 0) {
		int why = errno;

		free(f->beside);
		f->beside = NULL;
		return refuse(path, strerror(why), err);
	}
	f->to = fdopen(fd, "wb");
	if (!f->to)
		close(fd);
	if (!f->to || fchmod(fd, mode) != 0)
		return refuse(path, strerror(errno), err);
	return STATUS_OK;
}

enum status outfile_finish(struct outfile *f, struct error *err)
{
	bool whole;
	int why;

	if (!f->to)
		return STATUS_OK;
	errno = 0;
	whole = !ferror(f->to) && fflush(f->to) == 0 && fsync(fileno(f->to)) == 0;
	why = errno;
	if (fclose(f->to) != 0 && whole) {
		whole = false;
		why = errno;
	}
	f->to = NULL;
	return whole ? STATUS_OK : refuse(f->path, why ? strerror(why) : "a write failed", err);
}

enum status outfile_move(struct outfile *f, struct error *err)
{
	if (rename(f->beside, f->path) != 0)
		return refuse(f->path, strerror(errno), err);
	free(f->beside);
	f->beside = NULL;
	return STATUS_OK;
}

void outfile_done(struct outfile *f)
{
	if (f->to)
		fclose(f->to);
	if (f->beside)
		unlink(f->beside);
	free(f->beside);
	free(f->path);
	memset(f, 0, sizeof *f);
}
