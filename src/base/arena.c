/* arena.c - blocks in a list, filled from the front.
 *
 * Each block is twice as large as the one before, up to a megabyte, so that a small plan costs one
 * allocation and a large one a few dozen. */
#include "slabwright/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_BLOCK = 8192, LARGEST_BLOCK = 1 << 20 };

struct arena_block {
	struct arena_block *next;
	size_t used, size;
	max_align_t data[];
};

static struct arena_block *block_new(size_t size)
{
	struct arena_block *b = malloc(sizeof *b + size);

	if (b) {
		b->next = NULL;
		b->used = 0;
		b->size = size;
	}
	return b;
}

void *arena_alloc(struct arena *mem, size_t count, size_t size)
{
	const size_t align = sizeof(max_align_t);
	struct arena_block *b = mem->head;
	size_t bytes;
	void *p;

	if (size && count > (SIZE_MAX / 4) / size)
		return NULL;
	bytes = (count * size + align - 1) / align * align;
	if (!b || b->size - b->used < bytes) {
		size_t room = b ? b->size * 2 : FIRST_BLOCK;

		if (room > LARGEST_BLOCK)
			room = LARGEST_BLOCK;
		if (room < bytes)
			room = bytes;
		b = block_new(room);
		if (!b)
			return NULL;
		b->next = mem->head;
		mem->head = b;
	}
	p = (char *)b->data + b->used;
	b->used += bytes;
	return memset(p, 0, bytes);
}

char *arena_text(struct arena *mem, const char *text)
{
	size_t n = text ? strlen(text) : 0;
	char *copy = arena_alloc(mem, n + 1, 1);

	if (copy && n)
		memcpy(copy, text, n);
	return copy;
}

char *arena_print(struct arena *mem, const char *format, ...)
{
	va_list args;
	char *text;
	int n;

	va_start(args, format);
	n = vsnprintf(NULL, 0, format, args);
	va_end(args);
	if (n < 0 || !(text = arena_alloc(mem, (size_t)n + 1, 1)))
		return NULL;
	va_start(args, format);
	vsnprintf(text, (size_t)n + 1, format, args);
	va_end(args);
	return text;
}

void arena_reset(struct arena *mem)
{
	struct arena_block *keep = mem->head;

	for (struct arena_block *b = mem->head; b; b = b->next)
		if (b->size > keep->size)
			keep = b;
	for (struct arena_block *b = mem->head, *next; b; b = next) {
		next = b->next;
		if (b != keep)
			free(b);
	}
	mem->head = keep;
	if (keep) {
		keep->next = NULL;
		keep->used = 0;
	}
}

void arena_free(struct arena *mem)
{
	for (struct arena_block *b = mem->head, *next; b; b = next) {
		next = b->next;
		free(b);
	}
	mem->head = NULL;
}

void *arena_grow(struct arena *mem, void *items, size_t count, size_t *capacity, size_t size)
{
	size_t room;
	void *moved;

	if (count < *capacity)
		return items;
	room = *capacity ? *capacity * 2 : 8;
	moved = arena_alloc(mem, room, size);
	if (!moved)
		return NULL;
	if (count)
		memcpy(moved, items, count * size);
	*capacity = room;
	return moved;
}
