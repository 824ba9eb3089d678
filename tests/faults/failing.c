/* failing.c - the layers. */
#include "faults/failing.h"

#include <check.h>
#include <sqlite3.h>
#include <string.h>

struct failing failing_disk = { .at = -1 };
struct failing failing_memory = { .at = -1 };

void failing_start(struct failing *f, int at, bool on)
{
	*f = (struct failing){ .at = at, .on = on, .code = f->code };
}

void failing_stop(struct failing *f)
{
	f->at = -1;
}

static bool fails(struct failing *f)
{
	int n = f->seen++;

	if (f->at < 0 || n < f->at || (n > f->at && !f->on))
		return false;
	f->hits++;
	return true;
}

/* --- the disk --- */

struct file {
	sqlite3_file base;
	sqlite3_file *real; /* right behind this struct */
};

static sqlite3_vfs layer, *below;

static sqlite3_file *real(sqlite3_file *f)
{
	return ((struct file *)f)->real;
}

static int f_close(sqlite3_file *f)
{
	return real(f)->pMethods->xClose(real(f));
}

static int f_read(sqlite3_file *f, void *to, int n, sqlite3_int64 at)
{
	return real(f)->pMethods->xRead(real(f), to, n, at);
}

static int f_write(sqlite3_file *f, const void *from, int n, sqlite3_int64 at)
{
	if (!fails(&failing_disk))
		return real(f)->pMethods->xWrite(real(f), from, n, at);
	/* What a disk does that runs full: the first half is there. */
	real(f)->pMethods->xWrite(real(f), from, n / 2, at);
	return failing_disk.code;
}

static int f_truncate(sqlite3_file *f, sqlite3_int64 size)
{
	return fails(&failing_disk) ? SQLITE_IOERR_TRUNCATE
	                            : real(f)->pMethods->xTruncate(real(f), size);
}

static int f_sync(sqlite3_file *f, int flags)
{
	return fails(&failing_disk) ? SQLITE_IOERR_FSYNC : real(f)->pMethods->xSync(real(f), flags);
}

static int f_size(sqlite3_file *f, sqlite3_int64 *size)
{
	return real(f)->pMethods->xFileSize(real(f), size);
}

static int f_lock(sqlite3_file *f, int level)
{
	return real(f)->pMethods->xLock(real(f), level);
}

static int f_unlock(sqlite3_file *f, int level)
{
	return real(f)->pMethods->xUnlock(real(f), level);
}

static int f_reserved(sqlite3_file *f, int *out)
{
	return real(f)->pMethods->xCheckReservedLock(real(f), out);
}

static int f_control(sqlite3_file *f, int op, void *arg)
{
	return real(f)->pMethods->xFileControl(real(f), op, arg);
}

static int f_sector(sqlite3_file *f)
{
	return real(f)->pMethods->xSectorSize(real(f));
}

static int f_device(sqlite3_file *f)
{
	return real(f)->pMethods->xDeviceCharacteristics(real(f));
}

static int f_shm_map(sqlite3_file *f, int page, int size, int extend, void volatile **at)
{
	return real(f)->pMethods->xShmMap(real(f), page, size, extend, at);
}

static int f_shm_lock(sqlite3_file *f, int offset, int n, int flags)
{
	return real(f)->pMethods->xShmLock(real(f), offset, n, flags);
}

static void f_shm_barrier(sqlite3_file *f)
{
	real(f)->pMethods->xShmBarrier(real(f));
}

static int f_shm_unmap(sqlite3_file *f, int remove)
{
	return real(f)->pMethods->xShmUnmap(real(f), remove);
}

static const sqlite3_io_methods methods = {
	.iVersion = 2,
	.xClose = f_close,
	.xRead = f_read,
	.xWrite = f_write,
	.xTruncate = f_truncate,
	.xSync = f_sync,
	.xFileSize = f_size,
	.xLock = f_lock,
	.xUnlock = f_unlock,
	.xCheckReservedLock = f_reserved,
	.xFileControl = f_control,
	.xSectorSize = f_sector,
	.xDeviceCharacteristics = f_device,
	.xShmMap = f_shm_map,
	.xShmLock = f_shm_lock,
	.xShmBarrier = f_shm_barrier,
	.xShmUnmap = f_shm_unmap,
};

static int layer_open(
        sqlite3_vfs *vfs, const char *name, sqlite3_file *f, int flags, int *out_flags)
{
	struct file *file = (struct file *)f;
	int rc;

	(void)vfs;
	file->real = (sqlite3_file *)(file + 1);
	rc = below->xOpen(below, name, file->real, flags, out_flags);
	file->base.pMethods = file->real->pMethods ? &methods : NULL;
	return rc;
}

void failing_disk_install(void)
{
	below = sqlite3_vfs_find(NULL);
	ck_assert_ptr_nonnull(below);
	layer = *below;
	layer.zName = "failing";
	layer.szOsFile = (int)sizeof(struct file) + below->szOsFile;
	layer.xOpen = layer_open;
	ck_assert_int_eq(sqlite3_vfs_register(&layer, 1), SQLITE_OK);
}

/* --- the memory --- */

static sqlite3_mem_methods allocator;

static void *m_malloc(int n)
{
	return fails(&failing_memory) ? NULL : allocator.xMalloc(n);
}

static void *m_realloc(void *p, int n)
{
	return fails(&failing_memory) ? NULL : allocator.xRealloc(p, n);
}

void failing_memory_install(void)
{
	sqlite3_mem_methods counted;

	ck_assert_int_eq(sqlite3_config(SQLITE_CONFIG_GETMALLOC, &allocator), SQLITE_OK);
	counted = allocator;
	counted.xMalloc = m_malloc;
	counted.xRealloc = m_realloc;
	ck_assert_int_eq(sqlite3_config(SQLITE_CONFIG_MALLOC, &counted), SQLITE_OK);
	/* No little blocks set aside: each request is one that can fail. */
	ck_assert_int_eq(sqlite3_config(SQLITE_CONFIG_LOOKASIDE, 0, 0), SQLITE_OK);
}
