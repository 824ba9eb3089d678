/* doc.h - a JSON document as a tree, and its objects read and written by tables of members.
 *
 * SQLite reads the JSON. A table of fields says what an object may hold, of which type, and where
 * in a C struct it goes; the same table writes the object, so that what is written is read back as
 * the same. */
#ifndef SLABWRIGHT_STORE_DOC_H
#define SLABWRIGHT_STORE_DOC_H

#include "slabwright/json.h"
#include "sql.h"

enum doc_type { DOC_NULL, DOC_BOOL, DOC_NUMBER, DOC_TEXT, DOC_ARRAY, DOC_OBJECT };

struct doc {
	enum doc_type type;
	const char *key; /* NULL for an item of an array and for the whole */
	size_t index; /* in its array or object */
	bool truth;
	double number;
	const char *text; /* of a DOC_TEXT */
	struct doc *parent, *first, *last, *next;
	size_t count; /* of children */
	int64_t id;
};

/* Everything a reader needs at hand. */
struct reader {
	struct store *s;
	struct arena *mem;
	struct error *err;
	bool notes; /* members called "note" are passed over */
};

/* Where and what the first fault of a text is that is not JSON (RFC 8259, UTF-8, no NUL, not too
 * deep): false, with *line and *column from 1 and words. */
bool json_scan(const char *text, size_t length, size_t *line, size_t *column, const char **fault);

/* Reads a text into a tree that lives in the reader's arena. STATUS_PLAN, with line and column, for
 * one that is not JSON; member names that come twice are refused too. */
enum status doc_parse(struct reader *r, const char *text, size_t length, struct doc **out);

/* The member of that name, or NULL. */
const struct doc *doc_member(const struct doc *object, const char *name);

/* STATUS_PLAN with "PLACE: " and the message, for instance "variants[0].outline.nodes[3].x: not a
 * number". */
enum status doc_refuse(struct reader *r, const struct doc *at, const char *format, ...)
        __attribute__((format(printf, 3, 4)));

/* "variants[0].laying." - the place of a node's members. NULL when memory is gone. */
const char *doc_prefix(struct reader *r, const struct doc *at);

/* --- tables of members --- */

enum field_type {
	FIELD_MM, /* int64_t um; millimetres */
	FIELD_DEGREES, /* int64_t microdegrees; degrees */
	FIELD_THOUSAND, /* int64_t thousandths of the unit: falls in mm per m, masses in kg */
	FIELD_WHOLE, /* int64_t */
	FIELD_MONEY, /* int64_t minor units; -1 unknown: not written */
	FIELD_SHARE, /* int64_t parts per million; a fraction */
	FIELD_FRACTION, /* double, exactly as written */
	FIELD_BOOL, /* bool */
	FIELD_TEXT, /* const char *, up to NAME_LONGEST bytes */
	FIELD_WORD, /* an enum, by the words of `words` */
	FIELD_RATE, /* int64_t nm a second; metres a second */
	FIELD_OBJECT, /* the members of `shape`, in the struct at `at` */
	FIELD_LIST, /* an array: the items' place at `at`, their count as `list` says */
	FIELD_OWN, /* read and write do it, with what is at `at` */
};

struct words {
	const char *(*name)(int value);
	int (*parse)(const char *word); /* -1 for none */
	int count;
	const char *what; /* "bond" */
};

enum field_flag {
	FIELD_REQUIRED = 1, /* refused when missing; always written */
	FIELD_ALWAYS = 2, /* written even when it has its default */
	FIELD_POSITIVE = 4, /* a number under 0 is refused */
	FIELD_TIGHT = 8, /* an object, or each item of a list, is written on one line */
	FIELD_HAS = 16, /* the bool at `has` tells whether it is there; else it is not written */
};

struct field;
struct shape {
	const struct field *fields;
	size_t count;
};

#define SHAPE(fields)                                                                              \
	{                                                                                          \
		fields, sizeof(fields) / sizeof *(fields)                                          \
	}

/* What the items of a list are. A list without items is not written, unless ALWAYS. */
struct list {
	const struct shape *shape;
	size_t size, most; /* of an item; how many items at most */
	size_t count_after; /* the count lies so far after the pointer to the items */
};

#define LIST(shape, type, most, items, count)                                                      \
	{                                                                                          \
		&(shape), sizeof *((type *)NULL)->items, most,                                     \
		        offsetof(type, count) - offsetof(type, items)                              \
	}

struct field {
	const char *name;
	enum field_type type;
	unsigned flags;
	size_t at; /* offset in the struct */
	const struct words *words;
	const struct shape *shape;
	const struct list *list;
	size_t has; /* offset of the bool */
	void (*init)(void *item); /* what is left out of an item of a list, or of an object that is
	                             not always there; NULL: all zero */
	/* Of a FIELD_OWN; of a list: reads an item that is not read by its shape alone. */
	enum status (*read)(struct reader *r, const struct doc *from, void *to);
	void (*write)(
	        struct json *j, const char *name, const void *from); /* nothing for a default */
};

/* Reads the object's members into the struct, which holds the defaults. Refuses what is not an
 * object, an unknown member (one that begins with "x-" is passed over), a wrong type, a missing
 * required one. */
enum status doc_read(
        struct reader *r, const struct doc *object, const struct shape *shape, void *to);

/* Writes the members, between the caller's json_object and json_end; defaults as doc_read found
 * them. */
void doc_write(struct json *j, const struct shape *shape, const void *from, const void *defaults);

/* Whether all members have their defaults. */
bool doc_is_default(const struct shape *shape, const void *from, const void *defaults);

/* Refuses an object that has only one of two members; *has (may be NULL): it has them. */
enum status doc_both(
        struct reader *r, const struct doc *object, const char *a, const char *b, bool *has);

/* Refuses what is not an array of at most `most` items. */
enum status doc_want_array(struct reader *r, const struct doc *at, size_t most);

/* Refuses a document whose "format" is another word or whose "version" is not 1. */
enum status doc_check_head(struct reader *r, const struct doc *root, const char *format);

#endif
