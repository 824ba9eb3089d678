/* doc_fields.c - objects read and written by tables of members. */
#include "doc.h"
#include "entries.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define LARGEST_NUMBER 1e9

static const char *const wanted[] = {
	[FIELD_MM] = "not a number; give millimetres, like 6200",
	[FIELD_DEGREES] = "not a number; give degrees, like 90",
	[FIELD_THOUSAND] = "not a number; give one like 15",
	[FIELD_WHOLE] = "not a number; give a whole one, like 20",
	[FIELD_MONEY] = "not a number; give a price, like 4.35",
	[FIELD_SHARE] = "not a number; give a fraction, like 0.02",
	[FIELD_FRACTION] = "not a number; give a fraction, like 0.5",
	[FIELD_BOOL] = "neither true nor false; give one of them, without quotes",
	[FIELD_TEXT] = "not a text; give one in double quotes",
	[FIELD_WORD] = "not a text; give a word in double quotes",
	[FIELD_RATE] = "not a number; give metres a second, like 0.00001",
	[FIELD_OBJECT] = "not an object; give its members between { and }",
	[FIELD_LIST] = "",
	[FIELD_OWN] = "",
};

/* How many of the value kept make one of the number written. */
static const double scale[] = {
	[FIELD_MM] = 1e3,
	[FIELD_DEGREES] = 1e6,
	[FIELD_THOUSAND] = 1e3,
	[FIELD_WHOLE] = 1,
	[FIELD_MONEY] = 100,
	[FIELD_SHARE] = 1e6,
	[FIELD_RATE] = 1e9,
};

static enum doc_type json_type(enum field_type type)
{
	switch (type) {
	case FIELD_BOOL:
		return DOC_BOOL;
	case FIELD_TEXT:
	case FIELD_WORD:
		return DOC_TEXT;
	case FIELD_OBJECT:
		return DOC_OBJECT;
	default:
		return DOC_NUMBER;
	}
}

enum status doc_want_array(struct reader *r, const struct doc *at, size_t most)
{
	if (at->type != DOC_ARRAY)
		return doc_refuse(r, at, "not an array; give its items between [ and ]");
	if (at->count > most)
		return doc_refuse(r, at, "%zu items; give at most %zu", at->count, most);
	return STATUS_OK;
}

enum status doc_both(
        struct reader *r, const struct doc *object, const char *a, const char *b, bool *has)
{
	bool has_a = doc_member(object, a) != NULL, has_b = doc_member(object, b) != NULL;

	if (has_a != has_b)
		return doc_refuse(r, object, "%s without %s; give both, or neither", has_a ? a : b,
		        has_a ? b : a);
	if (has)
		*has = has_a;
	return STATUS_OK;
}

enum status doc_check_head(struct reader *r, const struct doc *root, const char *format)
{
	const struct doc *word = doc_member(root, "format"), *version = doc_member(root, "version");

	if (root->type != DOC_OBJECT)
		return doc_refuse(r, root, "the document is not an object; it begins with {");
	if (!word || word->type != DOC_TEXT || strcmp(word->text, format) != 0)
		return error_set(r->err, STATUS_PLAN,
		        "format: not \"%s\"; give a document of that format", format);
	if (!version || version->type != DOC_NUMBER || version->number != 1)
		return error_set(r->err, STATUS_PLAN,
		        "version: not 1, the version that this program reads; for a later one use "
		        "a later program");
	return STATUS_OK;
}

static enum status read_number(
        struct reader *r, const struct doc *d, const struct field *f, void *to)
{
	double v = d->number;
	int64_t kept;

	if ((f->flags & FIELD_POSITIVE) && v < 0)
		return doc_refuse(r, d, "%.10g is under 0; give 0 or more", v);
	if (f->type == FIELD_MM && !(fabs(v) <= (double)COORD_LIMIT_UM / 1e3))
		return doc_refuse(
		        r, d, "%.10g mm is out of reach; stay within 1000000 mm (1 km)", v);
	if (!(fabs(v) <= LARGEST_NUMBER))
		return doc_refuse(r, d, "%.10g is out of reach; give a smaller number", v);
	if (f->type == FIELD_WHOLE && v != floor(v))
		return doc_refuse(r, d, "%.10g is not a whole number; give one", v);
	kept = llround(v * scale[f->type]);
	memcpy((char *)to + f->at, &kept, sizeof kept);
	return STATUS_OK;
}

/* "house wall, kerb, haunch" */
static const char *list_words(const struct words *w, char *buf, size_t size)
{
	buf[0] = '\0';
	for (int i = 0; i < w->count; i++) {
		size_t n = strlen(buf);

		snprintf(buf + n, size - n, "%s%s", i ? ", " : "", w->name(i));
	}
	return buf;
}

static enum status read_word(struct reader *r, const struct doc *d, const struct field *f, void *to)
{
	int value = f->words->parse(d->text);
	char list[200];

	if (value < 0)
		return doc_refuse(r, d, "no such %s as \"%.60s\"; the words are %s", f->words->what,
		        d->text, list_words(f->words, list, sizeof list));
	memcpy((char *)to + f->at, &value, sizeof value);
	return STATUS_OK;
}

static enum status read_text(struct reader *r, const struct doc *d, const struct field *f, void *to)
{
	size_t n = strlen(d->text);

	if (n > NAME_LONGEST)
		return doc_refuse(r, d, "%zu bytes long; give at most %d", n, NAME_LONGEST);
	if (!utf8_valid(d->text, n))
		return doc_refuse(
		        r, d, "half a character (a lone \\u escape of a pair); give both halves");
	if (!n && (f->flags & FIELD_REQUIRED))
		return doc_refuse(r, d, "empty; give from 1 to %d bytes", NAME_LONGEST);
	memcpy((char *)to + f->at, &d->text, sizeof d->text);
	return STATUS_OK;
}

/* What is left out of an item or object has the values that it begins with. */
static void begin(const struct field *f, void *to)
{
	if (f->init)
		f->init(to);
}

static enum status read_list(struct reader *r, const struct doc *d, const struct field *f, void *to)
{
	const struct list *l = f->list;
	enum status st = doc_want_array(r, d, l->most);
	size_t count = 0;
	char *items;

	if (st != STATUS_OK)
		return st;
	if (!(items = arena_alloc(r->mem, d->count, l->size)))
		return error_memory(r->err);
	for (const struct doc *c = d->first; st == STATUS_OK && c; c = c->next, count++) {
		begin(f, items + count * l->size);
		st = f->read ? f->read(r, c, items + count * l->size)
		             : doc_read(r, c, l->shape, items + count * l->size);
	}
	memcpy((char *)to + f->at, &items, sizeof items);
	memcpy((char *)to + f->at + l->count_after, &count, sizeof count);
	return st;
}

static enum status read_field(
        struct reader *r, const struct doc *d, const struct field *f, void *to)
{
	static const bool has = true;

	if (f->type == FIELD_OWN)
		return f->read(r, d, (char *)to + f->at);
	if (f->type == FIELD_LIST)
		return read_list(r, d, f, to);
	if (d->type != json_type(f->type))
		return doc_refuse(r, d, "%s", wanted[f->type]);
	if (f->flags & FIELD_HAS)
		memcpy((char *)to + f->has, &has, sizeof has);
	switch (f->type) {
	case FIELD_BOOL:
		memcpy((char *)to + f->at, &d->truth, sizeof d->truth);
		return STATUS_OK;
	case FIELD_FRACTION:
		memcpy((char *)to + f->at, &d->number, sizeof d->number);
		return STATUS_OK;
	case FIELD_TEXT:
		return read_text(r, d, f, to);
	case FIELD_WORD:
		return read_word(r, d, f, to);
	case FIELD_OBJECT:
		begin(f, (char *)to + f->at);
		return doc_read(r, d, f->shape, (char *)to + f->at);
	default:
		return read_number(r, d, f, to);
	}
}

static enum status unknown_member(struct reader *r, const struct doc *d, const struct shape *shape)
{
	char list[300] = "";

	for (size_t i = 0; i < shape->count; i++) {
		size_t n = strlen(list);

		snprintf(list + n, sizeof list - n, "%s%s", i ? ", " : "", shape->fields[i].name);
	}
	return doc_refuse(r, d, "there is no such member; the members are %s", list);
}

static enum status read_member(
        struct reader *r, const struct doc *d, const struct shape *shape, void *to)
{
	if (strncmp(d->key, "x-", 2) == 0 || (r->notes && strcmp(d->key, "note") == 0))
		return STATUS_OK;
	for (size_t i = 0; i < shape->count; i++)
		if (strcmp(shape->fields[i].name, d->key) == 0)
			return read_field(r, d, &shape->fields[i], to);
	return unknown_member(r, d, shape);
}

enum status doc_read(
        struct reader *r, const struct doc *object, const struct shape *shape, void *to)
{
	enum status st = STATUS_OK;

	if (object->type != DOC_OBJECT)
		return doc_refuse(r, object, "%s", wanted[FIELD_OBJECT]);
	for (const struct doc *d = object->first; st == STATUS_OK && d; d = d->next)
		st = read_member(r, d, shape, to);
	for (size_t i = 0; st == STATUS_OK && i < shape->count; i++) {
		const struct field *f = &shape->fields[i];

		if ((f->flags & FIELD_REQUIRED) && !doc_member(object, f->name)) {
			struct doc missing = { .key = f->name, .parent = (struct doc *)object };

			st = doc_refuse(r, &missing, "missing; this member is needed");
		}
	}
	return st;
}

/* --- writing --- */

static size_t size_of(enum field_type type)
{
	switch (type) {
	case FIELD_BOOL:
		return sizeof(bool);
	case FIELD_WORD:
		return sizeof(int);
	case FIELD_FRACTION:
		return sizeof(double);
	default:
		return sizeof(int64_t);
	}
}

static const char *text_at(const void *from, size_t at)
{
	const char *text;

	memcpy(&text, (const char *)from + at, sizeof text);
	return text ? text : "";
}

static bool bool_at(const void *from, size_t at)
{
	bool truth;

	memcpy(&truth, (const char *)from + at, sizeof truth);
	return truth;
}

static size_t list_count(const struct field *f, const void *from)
{
	size_t count;

	memcpy(&count, (const char *)from + f->at + f->list->count_after, sizeof count);
	return count;
}

/* Whether the value is the default; of an object, whether all of its members are. */
static bool at_default(const struct field *f, const void *from, const void *defaults)
{
	const char *a = (const char *)from + f->at, *b = (const char *)defaults + f->at;

	if (f->flags & FIELD_HAS)
		return !bool_at(from, f->has);
	switch (f->type) {
	case FIELD_TEXT:
		return strcmp(text_at(from, f->at), text_at(defaults, f->at)) == 0;
	case FIELD_LIST:
		return list_count(f, from) == 0;
	case FIELD_OBJECT:
		return doc_is_default(f->shape, a, b);
	case FIELD_OWN:
		return false;
	default:
		return memcmp(a, b, size_of(f->type)) == 0;
	}
}

bool doc_is_default(const struct shape *shape, const void *from, const void *defaults)
{
	for (size_t i = 0; i < shape->count; i++)
		if (!at_default(&shape->fields[i], from, defaults))
			return false;
	return true;
}

static bool is_default(const struct field *f, const void *from, const void *defaults)
{
	if (!(f->flags & FIELD_HAS) && (f->flags & (FIELD_REQUIRED | FIELD_ALWAYS)))
		return false;
	return at_default(f, from, defaults);
}

static void write_number(struct json *j, const struct field *f, const void *from)
{
	int64_t v;

	memcpy(&v, (const char *)from + f->at, sizeof v);
	switch (f->type) {
	case FIELD_MM:
	case FIELD_THOUSAND:
		json_mm(j, f->name, v);
		return;
	case FIELD_DEGREES:
		json_degrees(j, f->name, v);
		return;
	case FIELD_WHOLE:
		json_int(j, f->name, v);
		return;
	default:
		json_real(j, f->name, (double)v / scale[f->type]);
	}
}

static void write_list(struct json *j, const struct field *f, const void *from)
{
	/* An item that says nothing: room for the largest there is. */
	_Alignas(max_align_t) char defaults[512] = { 0 };
	const struct list *l = f->list;
	size_t count = list_count(f, from);
	const char *items;

	assert(l->size <= sizeof defaults);
	begin(f, defaults);
	memcpy(&items, (const char *)from + f->at, sizeof items);
	json_array(j, f->name);
	for (size_t i = 0; i < count; i++) {
		if (f->flags & FIELD_TIGHT)
			json_object_tight(j, NULL);
		else
			json_object(j, NULL);
		doc_write(j, l->shape, items + i * l->size, defaults);
		json_end(j);
	}
	json_end(j);
}

static void write_field(
        struct json *j, const struct field *f, const void *from, const void *defaults)
{
	const char *at = (const char *)from + f->at;
	double real;
	bool truth;
	int word;

	switch (f->type) {
	case FIELD_OWN:
		if (f->write)
			f->write(j, f->name, at);
		return;
	case FIELD_LIST:
		write_list(j, f, from);
		return;
	case FIELD_OBJECT:
		if (f->flags & FIELD_TIGHT)
			json_object_tight(j, f->name);
		else
			json_object(j, f->name);
		doc_write(j, f->shape, at, (const char *)defaults + f->at);
		json_end(j);
		return;
	case FIELD_BOOL:
		memcpy(&truth, at, sizeof truth);
		json_bool(j, f->name, truth);
		return;
	case FIELD_TEXT:
		json_text(j, f->name, text_at(from, f->at));
		return;
	case FIELD_WORD:
		memcpy(&word, at, sizeof word);
		json_text(j, f->name, f->words->name(word));
		return;
	case FIELD_FRACTION:
		memcpy(&real, at, sizeof real);
		json_real(j, f->name, real);
		return;
	default:
		write_number(j, f, from);
	}
}

void doc_write(struct json *j, const struct shape *shape, const void *from, const void *defaults)
{
	for (size_t i = 0; i < shape->count; i++)
		if (!is_default(&shape->fields[i], from, defaults))
			write_field(j, &shape->fields[i], from, defaults);
}
