/* quotation.c - what the client reads: what is built, what is in the price, the price. The lists
 * are made once, and written in three forms. */
#include "csv_row.h"
#include "money.h"
#include "slabwright/calendar.h"
#include "slabwright/json.h"

#include <inttypes.h>
#include <stdarg.h>
#include <string.h>

enum { ITEMS = 400 };

struct items {
	const char *text[ITEMS];
	size_t count;
};

struct quotation {
	const struct takeoff *t;
	const struct price *p;
	const struct letter_head *head;
	struct arena mem;
	bool failed; /* memory is gone */
	struct items built, included, excluded, unknown;
	char valid_until[16];
};

/* An item, unless it is there already. */
__attribute__((format(printf, 3, 4))) static void put(
        struct quotation *q, struct items *items, const char *format, ...)
{
	char *text, words[1000];
	va_list args;

	va_start(args, format);
	vsnprintf(words, sizeof words, format, args);
	va_end(args);
	for (size_t i = 0; i < items->count; i++)
		if (strcmp(items->text[i], words) == 0)
			return;
	text = arena_text(&q->mem, words);
	q->failed = q->failed || !text;
	if (text && items->count < ITEMS)
		items->text[items->count++] = text;
}

static const char *words_of(struct quotation *q, const char *words)
{
	q->failed = q->failed || !words;
	return words ? words : "";
}

static const char *named(const char *name, const char *else_word)
{
	return name && *name ? name : else_word;
}

/* --- what is built --- */

static const char *slab_words(struct quotation *q, const struct plan_slab *s)
{
	char l[40], w[40], d[40];

	return words_of(
	        q, arena_print(&q->mem, "%s%s%s x %s x %s mm", s->name, *s->name ? ", " : "",
	                   mm_print(l, sizeof l, s->length_um), mm_print(w, sizeof w, s->width_um),
	                   mm_print(d, sizeof d, s->thickness_um)));
}

static void put_section(struct quotation *q, const struct section *s)
{
	const struct plan_laying *l = &s->laying;

	if (s->kind == SECTION_BORDER)
		return;
	if (!s->paved) {
		put(q, &q->built, "%s: %.2f m2 without slabs", s->name, s->area_m2);
		return;
	}
	if (bond_of_one_slab(l->bond))
		put(q, &q->built, "%s: %.2f m2 of slabs (%s), in %s bond",
		        s->kind == SECTION_FIELD ? "paving" : s->name, s->area_m2,
		        slab_words(q, &l->slab), bond_name(l->bond));
	else
		put(q, &q->built, "%s: %.2f m2 of slabs of several sizes, %s",
		        s->kind == SECTION_FIELD ? "paving" : s->name, s->area_m2,
		        bond_name(l->bond));
}

static void put_borders(struct quotation *q)
{
	for (size_t b = 0; b < q->t->plan.border_count; b++) {
		const struct plan_border *border = &q->t->plan.borders[b];
		double area_m2 = 0;

		for (size_t i = 0; i < q->t->laid.section_count; i++) {
			const struct section *s = &q->t->laid.sections[i];

			if (s->kind == SECTION_BORDER && s->number == b)
				area_m2 += s->area_m2;
		}
		if (area_m2 > 0)
			put(q, &q->built, "border: %.2f m2 of slabs (%s), %s course", area_m2,
			        slab_words(q, &border->slab), border_lay_name(border->lay));
	}
}

static void put_layers(struct quotation *q)
{
	const struct plan_ground *g = &q->t->plan.ground;
	char bedding[40], sub_base[40];

	put(q, &q->built, "under the slabs %s mm of bedding on %s mm of compacted sub-base",
	        mm_print(bedding, sizeof bedding, g->bedding_um),
	        mm_print(sub_base, sizeof sub_base, g->sub_base_um));
}

static void put_edging(struct quotation *q)
{
	for (size_t i = 0; i < q->t->edging.count; i++) {
		const struct edging_line *l = &q->t->edging.lines[i];

		if (l->unit_um > 0)
			put(q, &q->built, "%s: %.2f m of %s", edge_kind_name(l->kind), l->length_m,
			        named(l->unit_name, "edging units"));
		else if (l->kind == EDGE_HAUNCH)
			put(q, &q->built, "%.2f m of edge held by a haunch, flush with the slabs",
			        l->length_m);
	}
}

static void put_water(struct quotation *q)
{
	const struct plan_water *w = &q->t->plan.water;

	for (size_t i = 0; i < q->t->drainage.channel_count; i++)
		put(q, &q->built, "drainage channel: %s, %.2f m", q->t->drainage.channels[i].name,
		        q->t->drainage.channels[i].length_m);
	if (w->gully_count)
		put(q, &q->built, "gullies: %zu", w->gully_count);
	if (w->soakaway.has)
		put(q, &q->built, "a soakaway");
}

static void put_walls_and_steps(struct quotation *q)
{
	char mm[40], words[300];

	for (size_t i = 0; i < q->t->planters.count; i++) {
		const struct planter_result *r = &q->t->planters.items[i];

		if (r->ready)
			put(q, &q->built, "%s: %.2f m of wall, %s mm high, of %s",
			        planter_words(words, sizeof words, r->planter, i), r->middle_m,
			        mm_print(mm, sizeof mm, r->height_um),
			        named(r->planter->block.name, "blocks"));
	}
	for (size_t i = 0; i < q->t->steps.count; i++) {
		const struct flight *f = &q->t->steps.flights[i];

		if (!f->fault)
			put(q, &q->built, "steps%s%s: %" PRId64 " risers, %s mm wide, of %s",
			        *f->steps->name ? " " : "", f->steps->name, f->risers,
			        mm_print(mm, sizeof mm, f->steps->width_um),
			        named(f->steps->unit_name, steps_piece_name(f->steps)));
	}
}

/* --- what is in the price --- */

static void put_group(struct quotation *q, enum cost_group group, const char *head)
{
	const char *words = "";

	for (size_t i = 0; i < q->p->count; i++) {
		const struct price_line *l = &q->p->lines[i];

		if (l->group != group || *l->fault || !l->quantity_milli)
			continue;
		words = words_of(q, arena_print(&q->mem, "%s%s%s", words, *words ? "; " : "",
		                            named(l->what, "unnamed")));
	}
	if (*words)
		put(q, &q->included, "%s: %s", head, words);
}

static void put_included(struct quotation *q)
{
	put_group(q, COST_MATERIALS, "materials, delivered or carted away");
	put_group(q, COST_LABOUR, "work");
	put_group(q, COST_HIRE, "plant");
	put_group(q, COST_EXTRAS, "besides");
}

static void put_excluded(struct quotation *q)
{
	const struct plan_costs *c = &q->t->plan.costs;

	for (size_t i = 0; i < q->p->count; i++)
		if (*q->p->lines[i].fault)
			put(q, &q->unknown, "%s: %s", cost_group_name(q->p->lines[i].group),
			        named(q->p->lines[i].what, "unnamed"));
	if (!c->materials[MATERIAL_SEALER].used)
		put(q, &q->excluded, "sealing of the slabs");
	if (!c->materials[MATERIAL_SPOIL].used)
		put(q, &q->excluded, "taking away what is dug");
	put(q, &q->excluded, "plants");
	put(q, &q->excluded,
	        "what comes to light when digging: rock, old foundations, roots, ground water, "
	        "pipes and cables that no plan shows");
	put(q, &q->excluded, "permits, and connections to a sewer");
}

static enum status make_lists(struct quotation *q, struct error *err)
{
	const struct takeoff *t = q->t;

	for (size_t i = 0; i < t->laid.section_count; i++)
		put_section(q, &t->laid.sections[i]);
	put_borders(q);
	put_layers(q);
	put_edging(q);
	put_water(q);
	put_walls_and_steps(q);
	put_included(q);
	put_excluded(q);
	calendar_print(q->valid_until, sizeof q->valid_until,
	        calendar_day(q->head->date) + t->plan.costs.valid_days);
	return q->failed ? error_memory(err) : STATUS_OK;
}

/* --- text --- */

static void text_items(FILE *to, const char *head, const struct items *items)
{
	if (!items->count)
		return;
	fprintf(to, "\n%s\n", head);
	for (size_t i = 0; i < items->count; i++) {
		fputs("  - ", to);
		sheet_put_text(to, items->text[i]);
		fputc('\n', to);
	}
}

/* Whole money without decimals, where there are none. */
static const char *client_money(const struct quotation *q, char buf[60], int64_t minor)
{
	char money[40];

	if (minor % 100 == 0)
		snprintf(buf, 60, "%s %" PRId64, q->t->plan.costs.currency, minor / 100);
	else
		snprintf(buf, 60, "%s %s", q->t->plan.costs.currency,
		        money_print(money, sizeof money, minor));
	return buf;
}

static void text_sums(FILE *to, const struct quotation *q)
{
	const struct plan_costs *c = &q->t->plan.costs;
	char money[60], share[40];

	fputs("\nPrice\n", to);
	if (c->discount_ppm)
		fprintf(to, "  A discount of %s is in it.\n",
		        percent_print(share, sizeof share, c->discount_ppm));
	text_line(to, "price without tax", "%s", client_money(q, money, q->p->before_tax_minor));
	fprintf(to, "  tax, %s: %s\n", percent_print(share, sizeof share, c->tax_ppm),
	        client_money(q, money, q->p->tax_minor));
	text_line(to, "to pay", "%s", client_money(q, money, q->p->total_minor));
	if (q->p->unknown)
		fprintf(to,
		        "  This is without %zu thing%s whose price is not known yet; see above.\n",
		        q->p->unknown, q->p->unknown == 1 ? "" : "s");
	text_line(to, "holds until", "%s", q->valid_until);
}

static void text_quotation(FILE *to, const void *what)
{
	const struct quotation *q = what;

	fputs("Quotation\n\n  for: ", to);
	sheet_put_text(to, q->head->client);
	fputs("\n  job: ", to);
	sheet_put_text(to, q->head->job);
	fputs(", ", to);
	sheet_put_text(to, q->t->plan.name);
	fputc('\n', to);
	text_line(to, "date", "%s", q->head->date);
	text_items(to, "What is built", &q->built);
	text_items(to, "In the price", &q->included);
	text_items(to, "Not in the price", &q->excluded);
	text_items(to, "Not in the price yet, for want of prices", &q->unknown);
	text_sums(to, q);
	fputs("\nQuantities are those of the plan as measured. Local codes and what the makers of "
	      "the materials ask go before this text; buried pipes and cables are located before "
	      "anything is dug.\n",
	        to);
}

/* --- CSV --- */

static void csv_row_of(struct row *r, const char *section, const char *what, const char *value)
{
	row_text(r, section);
	row_text(r, what);
	row_text(r, value);
	row_end(r);
}

static void csv_sum(struct row *r, const char *what, int64_t minor)
{
	char money[40];

	row_text(r, "price");
	row_text(r, what);
	row_separate(r);
	fputs(money_print(money, sizeof money, minor), r->to);
	row_end(r);
}

static void csv_items(struct row *r, const char *section, const struct items *items)
{
	for (size_t i = 0; i < items->count; i++)
		csv_row_of(r, section, items->text[i], "");
}

static void csv_quotation(FILE *to, const void *what)
{
	const struct quotation *q = what;
	struct row r = { to, false };
	char share[40];

	ROW_HEADER(&r, "section", "what", "value");
	csv_row_of(&r, "quotation", "client", q->head->client);
	csv_row_of(&r, "quotation", "job", q->head->job);
	csv_row_of(&r, "quotation", "variant", q->t->plan.name);
	csv_row_of(&r, "quotation", "date", q->head->date);
	csv_row_of(&r, "quotation", "valid until", q->valid_until);
	csv_items(&r, "built", &q->built);
	csv_items(&r, "in the price", &q->included);
	csv_items(&r, "not in the price", &q->excluded);
	csv_items(&r, "not in the price yet", &q->unknown);
	csv_row_of(&r, "price", "currency", q->t->plan.costs.currency);
	csv_sum(&r, "before tax", q->p->before_tax_minor);
	csv_row_of(&r, "price", "tax rate",
	        percent_print(share, sizeof share, q->t->plan.costs.tax_ppm));
	csv_sum(&r, "tax", q->p->tax_minor);
	csv_sum(&r, "total", q->p->total_minor);
}

/* --- JSON --- */

static void json_items(struct json *j, const char *key, const struct items *items)
{
	json_array(j, key);
	for (size_t i = 0; i < items->count; i++)
		json_text(j, NULL, items->text[i]);
	json_end(j);
}

static void json_quotation(struct json *j, const void *what)
{
	const struct quotation *q = what;
	const struct plan_costs *c = &q->t->plan.costs;

	json_object(j, NULL);
	json_text(j, "client", q->head->client);
	json_text(j, "job", q->head->job);
	json_text(j, "variant", q->t->plan.name);
	json_text(j, "date", q->head->date);
	json_text(j, "valid_until", q->valid_until);
	json_items(j, "built", &q->built);
	json_items(j, "included", &q->included);
	json_items(j, "excluded", &q->excluded);
	json_items(j, "unknown", &q->unknown);
	json_text(j, "currency", c->currency);
	json_int(j, "before_tax_minor", q->p->before_tax_minor);
	json_real(j, "tax", (double)c->tax_ppm / 1e6);
	json_int(j, "tax_minor", q->p->tax_minor);
	json_int(j, "total_minor", q->p->total_minor);
	json_end(j);
}

enum status sheet_quotation(FILE *to, const struct takeoff *t, const struct price *price,
        const struct letter_head *head, enum sheet_form form, struct error *err)
{
	static const struct sheet_forms forms = { text_quotation, csv_quotation, json_quotation };
	struct quotation q = { .t = t, .p = price, .head = head };
	enum status st = make_lists(&q, err);

	if (st == STATUS_OK)
		st = sheet_write(to, &forms, &q, form, err);
	arena_free(&q.mem);
	return st;
}
