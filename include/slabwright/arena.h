/* arena.h - memory that dies together.
 *
 * A plan, a take-off or an import lives in one arena and is freed at once. Memory handed out is
 * zeroed, aligned for any type, and good until arena_free. */
#ifndef SLABWRIGHT_ARENA_H
#define SLABWRIGHT_ARENA_H

#include <stddef.h>

struct arena_block;

struct arena {
	struct arena_block *head; /* the block being filled; NULL when empty */
};

/* An arena starts as all zeroes: `struct arena mem = { 0 };` */

/* count items of size bytes each, zeroed; NULL when memory is gone or the product overflows. */
void *arena_alloc(struct arena *mem, size_t count, size_t size);

/* A copy of the text; NULL when memory is gone. text NULL gives "". */
char *arena_text(struct arena *mem, const char *text);

/* printf into the arena; NULL when memory is gone. */
char *arena_print(struct arena *mem, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Forgets everything handed out but keeps the largest block for the next use. */
void arena_reset(struct arena *mem);

/* Frees everything; the arena is empty and may be used again. */
void arena_free(struct arena *mem);

/* Makes room for one more item at the end of an array that lives in the arena: when *capacity is
 * used up, the array moves to twice the room. Returns the array, or NULL when memory is gone (the
 * old one is still good). Use: `p = arena_grow(mem, p, n, &capacity, sizeof *p)`. */
void *arena_grow(struct arena *mem, void *items, size_t count, size_t *capacity, size_t size);

#endif
