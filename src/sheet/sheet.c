/* sheet.c - which form of which sheet, and what all of them share. */
#include "form.h"
#include "order.h"
#include "planters.h"
#include "slabwright/json.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

struct forms {
	void (*text)(FILE *to, const struct takeoff *t);
	void (*csv)(FILE *to, const struct takeoff *t);
	void (*json)(struct json *to, const struct takeoff *t);
	bool laid; /* needs the laying; the others only outline and surface */
	bool alone; /* needs neither */
};

static const struct forms takeoff_forms = { text_takeoff, csv_takeoff, json_takeoff, true, false };
static const struct forms cuts_forms = { text_cuts, csv_cuts, json_cuts, true, false };
static const struct forms courses_forms = { text_courses, csv_courses, json_courses, true, false };
static const struct forms water_forms = { text_water, csv_water, json_water, false, false };
static const struct forms dig_forms = { text_dig, csv_dig, json_dig, true, false };
static const struct forms levels_forms = { text_levels, csv_levels, json_levels, false, false };
static const struct forms edging_forms = { text_edging, csv_edging, json_edging, false, false };
static const struct forms planters_forms = { text_planters, csv_planters, json_planters, false,
	true };
static const struct forms steps_forms = { text_steps, csv_steps, json_steps, false, false };

static const struct forms order_forms = { text_order, csv_order, json_order, true, false };

const char NO_RAIN[] = "no rain is chosen, so areas are given and no flow is worked out";

enum { FOLD_AT = 80 };

/* Bytes of the line at s that go before a fold: up to its last blank within `room` characters, or
 * up to the first blank after them where one word is longer; the whole line when it fits. */
static size_t fold_length(const char *s, size_t length, size_t room)
{
	size_t last = 0, characters = 0;

	for (size_t i = 0; i < length; i++) {
		characters += ((unsigned char)s[i] & 0xC0) != 0x80;
		if (s[i] == ' ' && i > 0 && s[i - 1] != ' ' && (characters <= room + 1 || !last))
			last = i;
		if (characters > room && last)
			return last;
	}
	return length;
}

static void write_folded(FILE *to, const char *text)
{
	while (*text) {
		size_t length = strcspn(text, "\n");
		size_t n = fold_length(text, length, FOLD_AT);

		fwrite(text, 1, n, to);
		for (text += n, length -= n; length; text += n, length -= n) {
			text++; /* the blank at the fold */
			length--;
			n = fold_length(text, length, FOLD_AT - 4);
			fputs("\n    ", to);
			fwrite(text, 1, n, to);
		}
		fputc('\n', to);
		text += *text == '\n';
	}
}

FILE *folded_open(struct folded *f)
{
	f->text = NULL;
	f->memory = open_memstream(&f->text, &f->size);
	return f->memory;
}

enum status folded_close(struct folded *f, FILE *to, struct error *err)
{
	bool failed = ferror(f->memory);

	failed = fclose(f->memory) != 0 || failed;
	if (!failed)
		write_folded(to, f->text);
	free(f->text);
	return failed ? error_memory(err) : STATUS_OK;
}

enum status json_write_out(struct json *j, FILE *to, struct error *err)
{
	bool failed = j->failed;

	if (!failed)
		fwrite(j->text, 1, j->length, to);
	json_free(j);
	return failed ? error_memory(err) : STATUS_OK;
}

enum status sheet_write(FILE *to, const struct sheet_forms *forms, const void *what,
        enum sheet_form form, struct error *err)
{
	struct json j = { 0 };
	struct folded f;

	switch (form) {
	case SHEET_TEXT:
		if (!folded_open(&f))
			return error_memory(err);
		forms->text(f.memory, what);
		return folded_close(&f, to, err);
	case SHEET_CSV:
		forms->csv(to, what);
		return STATUS_OK;
	case SHEET_JSON:
		break;
	}
	forms->json(&j, what);
	return json_write_out(&j, to, err);
}

static enum status write_sheet(FILE *to, const struct takeoff *t, enum sheet_form form,
        const struct forms *forms, struct error *err)
{
	struct json j = { 0 };
	struct folded f;

	if (!forms->alone && !(forms->laid ? t->ready : t->surface_ready))
		return error_set(err, STATUS_PLAN, "%s", t->fault.text);
	switch (form) {
	case SHEET_TEXT:
		if (!folded_open(&f))
			return error_memory(err);
		forms->text(f.memory, t);
		return folded_close(&f, to, err);
	case SHEET_CSV:
		forms->csv(to, t);
		return STATUS_OK;
	case SHEET_JSON:
		break;
	}
	forms->json(&j, t);
	return json_write_out(&j, to, err);
}

enum status sheet_takeoff(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	return write_sheet(to, t, form, &takeoff_forms, err);
}

enum status sheet_cuts(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	return write_sheet(to, t, form, &cuts_forms, err);
}

enum status sheet_courses(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	return write_sheet(to, t, form, &courses_forms, err);
}

enum status sheet_water(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	return write_sheet(to, t, form, &water_forms, err);
}

enum status sheet_dig(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	if (t->ready && !t->earth.ready)
		return error_set(err, STATUS_PLAN, "%s", t->earth.fault.text);
	return write_sheet(to, t, form, &dig_forms, err);
}

enum status sheet_levels(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	return write_sheet(to, t, form, &levels_forms, err);
}

enum status sheet_edging(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	return write_sheet(to, t, form, &edging_forms, err);
}

enum status sheet_steps(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	return write_sheet(to, t, form, &steps_forms, err);
}

enum status sheet_planters(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	return write_sheet(to, t, form, &planters_forms, err);
}

enum status sheet_order(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err)
{
	return write_sheet(to, t, form, &order_forms, err);
}

/* Length of the UTF-8 sequence that stands at s and its character; 1 and 0xFFFD for a bad byte. */
static size_t next_character(const unsigned char *s, uint32_t *c)
{
	static const uint32_t least[] = { 0, 0, 0x80, 0x800, 0x10000 };
	size_t n = s[0] < 0x80 ? 1 : s[0] < 0xC2 ? 0 : s[0] < 0xE0 ? 2 : s[0] < 0xF0 ? 3 : 4;

	*c = 0xFFFD;
	if (n == 0 || s[0] > 0xF4)
		return 1;
	if (n == 1) {
		*c = s[0];
		return 1;
	}
	uint32_t value = s[0] & (0x7Fu >> n);

	for (size_t i = 1; i < n; i++) {
		if ((s[i] & 0xC0) != 0x80)
			return 1;
		value = value << 6 | (s[i] & 0x3Fu);
	}
	if (value < least[n] || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF))
		return 1;
	*c = value;
	return n;
}

static bool is_unseen(uint32_t c)
{
	return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029 || c == 0x200E ||
	       c == 0x200F || (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) ||
	       c == 0xFFFD;
}

void sheet_put_text(FILE *to, const char *text)
{
	const unsigned char *s = (const unsigned char *)text;

	while (*s) {
		uint32_t c;
		size_t n = next_character(s, &c);

		if (is_unseen(c))
			fputs("\xEF\xBF\xBD", to);
		else
			fwrite(s, 1, n, to);
		s += n;
	}
}

char *money_print(char *buf, size_t size, int64_t minor)
{
	uint64_t n = minor < 0 ? -(uint64_t)minor : (uint64_t)minor;

	snprintf(buf, size, "%s%" PRIu64 ".%02" PRIu64, minor < 0 ? "-" : "", n / 100, n % 100);
	return buf;
}

const char *piece_kind_name(enum piece_kind kind)
{
	static const char *const names[] = { "whole", "cut", "sliver", "made up" };

	return names[kind];
}

void edge_nodes(const struct plan *plan, size_t edge, const struct plan_node **from,
        const struct plan_node **to)
{
	size_t ring, at;
	const struct plan_ring *r;

	*from = *to = NULL;
	if (!plan_edge_find(plan, edge, &ring, &at))
		return;
	r = &plan->rings[ring];
	*from = &r->nodes[at];
	*to = &r->nodes[(at + 1) % r->count];
}
