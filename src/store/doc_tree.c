/* doc_tree.c - SQLite's walk over a JSON text, made into a tree.
 *
 * json_tree gives the elements in the order of the text, each with its parent's id, so a node's
 * parent is always on the way back to the root. */
#include "doc.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LARGEST_TEXT = 64 << 20 };

static const char tree_sql[] = "SELECT id, parent, key, type, atom FROM json_tree(?1)";

static const struct {
	const char *name;
	enum doc_type type;
} types[] = {
	{ "null", DOC_NULL },
	{ "true", DOC_BOOL },
	{ "false", DOC_BOOL },
	{ "integer", DOC_NUMBER },
	{ "real", DOC_NUMBER },
	{ "text", DOC_TEXT },
	{ "array", DOC_ARRAY },
	{ "object", DOC_OBJECT },
};

/* "variants[0].outline.nodes[3].x", written from the end; what has no room is left out at the
 * front. */
static const char *place_of(const struct doc *at, char *buf, size_t size)
{
	char *to = buf + size - 1;

	*to = '\0';
	for (; at->parent; at = at->parent) {
		char step[220];
		int n = at->key ? snprintf(step, sizeof step, "%s%.200s",
		                          at->parent->parent ? "." : "", at->key)
		                : snprintf(step, sizeof step, "[%zu]", at->index);

		if (n < 0 || n > to - buf)
			break;
		to -= n;
		memcpy(to, step, (size_t)n);
	}
	return to;
}

enum status doc_refuse(struct reader *r, const struct doc *at, const char *format, ...)
{
	char message[420], place[300];
	va_list args;

	va_start(args, format);
	vsnprintf(message, sizeof message, format, args);
	va_end(args);
	if (!at->parent)
		return error_set(r->err, STATUS_PLAN, "%s", message);
	return error_set(r->err, STATUS_PLAN, "%s: %s", place_of(at, place, sizeof place), message);
}

const char *doc_prefix(struct reader *r, const struct doc *at)
{
	char place[300];

	return arena_print(
	        r->mem, "%s%s", place_of(at, place, sizeof place), at->parent ? "." : "");
}

const struct doc *doc_member(const struct doc *object, const char *name)
{
	for (const struct doc *d = object->type == DOC_OBJECT ? object->first : NULL; d;
	        d = d->next)
		if (strcmp(d->key, name) == 0)
			return d;
	return NULL;
}

static enum status read_row(struct reader *r, sqlite3_stmt *q, struct doc *d)
{
	const char *type = (const char *)sqlite3_column_text(q, 3);
	size_t i = 0;

	while (type && i < sizeof types / sizeof *types && strcmp(types[i].name, type) != 0)
		i++;
	if (!type || i == sizeof types / sizeof *types)
		return error_memory(r->err);
	d->id = sqlite3_column_int64(q, 0);
	d->type = types[i].type;
	d->truth = d->type == DOC_BOOL && type[0] == 't';
	if (d->type == DOC_NUMBER)
		d->number = sqlite3_column_double(q, 4);
	if (d->type == DOC_TEXT && !(d->text = sql_column(q, 4, r->mem)))
		return error_memory(r->err);
	return STATUS_OK;
}

/* Hangs the node into the tree; *top is the node before it. */
static enum status hang(struct reader *r, sqlite3_stmt *q, struct doc *d, struct doc *top)
{
	int64_t parent = sqlite3_column_int64(q, 1);

	while (top && top->id != parent)
		top = top->parent;
	if (!top)
		return error_set(r->err, STATUS_PLAN, "not JSON that can be read");
	if (top->type == DOC_OBJECT && !(d->key = sql_column(q, 2, r->mem)))
		return error_memory(r->err);
	d->parent = top;
	d->index = top->count++;
	if (top->last)
		top->last->next = d;
	else
		top->first = d;
	top->last = d;
	return STATUS_OK;
}

static enum status read_tree(struct reader *r, sqlite3_stmt *q, struct doc **out)
{
	struct doc *before = NULL;
	bool row;
	enum status st;

	*out = NULL;
	while ((st = sql_next(r->s, q, &row, r->err)) == STATUS_OK && row) {
		struct doc *d = arena_alloc(r->mem, 1, sizeof *d);

		st = d ? read_row(r, q, d) : error_memory(r->err);
		if (st == STATUS_OK && before)
			st = hang(r, q, d, before);
		if (st != STATUS_OK)
			return st;
		if (!*out)
			*out = d;
		before = d;
	}
	if (st == STATUS_OK && !*out)
		return error_set(r->err, STATUS_PLAN, "not JSON that can be read");
	return st;
}

static int by_key(const void *a, const void *b)
{
	return strcmp((*(struct doc *const *)a)->key, (*(struct doc *const *)b)->key);
}

/* Refuses member names that come twice, in every object below. */
static enum status refuse_twins(struct reader *r, const struct doc *d)
{
	const struct doc **all;
	enum status st = STATUS_OK;
	size_t n = 0;

	if (d->type == DOC_OBJECT && d->count > 1) {
		all = arena_alloc(r->mem, d->count, sizeof *all);
		if (!all)
			return error_memory(r->err);
		for (const struct doc *m = d->first; m; m = m->next)
			all[n++] = m;
		qsort(all, n, sizeof *all, by_key);
		for (size_t i = 1; i < n; i++)
			if (strcmp(all[i - 1]->key, all[i]->key) == 0)
				return doc_refuse(r, all[i], "this member comes twice; leave one");
	}
	for (const struct doc *m = d->first; st == STATUS_OK && m; m = m->next)
		st = refuse_twins(r, m);
	return st;
}

enum status doc_parse(struct reader *r, const char *text, size_t length, struct doc **out)
{
	size_t line, column;
	const char *fault;
	sqlite3_stmt *q;
	enum status st;
	char *copy;

	*out = NULL;
	if (length > LARGEST_TEXT)
		return error_set(r->err, STATUS_PLAN, "the document is over %d MB long; divide it",
		        LARGEST_TEXT >> 20);
	if (length >= 3 &&
	        memcmp(text, "\xEF\xBB\xBF", 3) == 0) { /* a byte order mark says nothing here */
		text += 3;
		length -= 3;
	}
	if (!json_scan(text, length, &line, &column, &fault))
		return error_set(r->err, STATUS_PLAN, "line %zu, column %zu: not JSON: %s", line,
		        column, fault);
	if (!(copy = arena_alloc(r->mem, length + 1, 1)))
		return error_memory(r->err);
	memcpy(copy, text, length);
	st = sql_start(r->s, &q, tree_sql, VALUES(TEXT(copy)), r->err);
	if (st == STATUS_OK)
		st = read_tree(r, q, out);
	sql_end(q);
	return st == STATUS_OK ? refuse_twins(r, *out) : st;
}
