/* order.c - the whole order: every line with what it is made of, supplier by supplier. */
#include "order.h"

#include "csv_row.h"
#include "slabwright/json.h"

#include <inttypes.h>

const char *order_line_what(const struct material_line *l)
{
	return l->piece ? goods_name(l->goods) : material_name(l->material);
}

/* --- text --- */

static void put_mass(FILE *to, double kg)
{
	if (kg > 0)
		fprintf(to, ", %.0f kg", kg);
	else
		fputs(", mass not known", to);
}

static void put_price(FILE *to, int64_t minor)
{
	char money[40];

	if (minor < 0)
		fputs(", no price", to);
	else
		fprintf(to, ", %s", money_print(money, sizeof money, minor));
}

/* "needs 3.139 m3 and 0.157 m3 for wastage: 3.296 m3; 4.120 m3 loose, 7004 kg" */
static void put_needs(FILE *to, const struct material_line *l)
{
	int decimals = l->piece ? 0 : 3;

	fprintf(to, "    needs %.*f %s", decimals, l->net, l->unit);
	if (l->wastage > 0)
		fprintf(to, " and %.*f for %s: %.*f %s", decimals, l->wastage,
		        l->piece ? "breakage" : "wastage", decimals, l->needed, l->unit);
	if (l->loose_m3 > 0)
		fprintf(to, "; %.3f m3 loose, %.0f kg", l->loose_m3, l->needed_kg);
	fputc('\n', to);
}

static void put_part(FILE *to, const struct material_line *l, const struct material_part *p)
{
	fprintf(to, "      %.*f %s, ", l->piece ? 0 : 3, p->quantity, l->unit);
	sheet_put_text(to, p->what);
	fputs(": ", to);
	sheet_put_text(to, p->formula);
	if (*p->source)
		fprintf(to, " (%s)", p->source);
	fputc('\n', to);
}

static void put_line(FILE *to, const struct material_line *l)
{
	fputs("  ", to);
	sheet_put_text(to, l->name);
	fprintf(to, " (%s): %s", order_line_what(l), l->buy_words);
	put_mass(to, l->mass_kg);
	put_price(to, l->price_minor);
	fputc('\n', to);
	put_needs(to, l);
	for (size_t i = 0; i < l->part_count; i++)
		put_part(to, l, &l->parts[i]);
	if (*l->note)
		fprintf(to, "    %s\n", l->note);
}

static void put_order(FILE *to, const struct materials *m, const struct supplier_order *o)
{
	char money[40];

	if (*o->supplier) {
		fputs("From ", to);
		sheet_put_text(to, o->supplier);
		fputc('\n', to);
	} else {
		fputs("No supplier named\n", to);
	}
	for (size_t i = 0; i < o->count; i++)
		put_line(to, &m->lines[o->lines[i]]);
	text_line(to, "together", "%.0f kg%s, %s", o->mass_kg,
	        o->mass_known ? "" : " and what is not known",
	        o->price_minor < 0 ? "not all priced"
	                           : money_print(money, sizeof money, o->price_minor));
	fputc('\n', to);
}

static void put_away(FILE *to, const struct materials *m)
{
	bool begun = false;

	for (size_t i = 0; i < m->count; i++) {
		if (!m->lines[i].away)
			continue;
		if (!begun)
			fputs("Carted away\n", to);
		begun = true;
		put_line(to, &m->lines[i]);
	}
	if (begun)
		fputc('\n', to);
}

static void put_load(FILE *to, const struct materials *m, const struct vehicle_load *l)
{
	fprintf(to, "    %" PRId64 " x %.0f kg: ", l->times, l->kg);
	for (size_t i = 0; i < l->count; i++) {
		const struct load_item *item = &l->items[i];

		fputs(i ? ", " : "", to);
		if (item->pieces)
			fprintf(to, "%" PRId64 " of ", item->pieces);
		else
			fprintf(to, "%.0f kg of ", item->kg);
		sheet_put_text(to, m->lines[item->line].name);
	}
	fputc('\n', to);
}

static void put_haul(FILE *to, const struct materials *m, const struct haul *h, const char *words)
{
	if (h->mass_kg <= 0)
		return;
	if (h->trips)
		text_line(to, words, "%.0f kg%s in %" PRId64 " trip%s (no fewer than %" PRId64 ")",
		        h->mass_kg, h->mass_known ? "" : " and what is not known", h->trips,
		        h->trips == 1 ? "" : "s", h->least);
	else
		text_line(to, words, "%.0f kg%s", h->mass_kg,
		        h->mass_known ? "" : " and what is not known");
	for (size_t i = 0; i < h->load_count; i++)
		put_load(to, m, &h->loads[i]);
	for (size_t i = 0; i < h->too_heavy_count; i++) {
		const struct material_line *l = &m->lines[h->too_heavy[i]];

		fputs("    One of ", to);
		sheet_put_text(to, l->name);
		fprintf(to, " weighs %.0f kg, more than the vehicle carries: have it delivered.\n",
		        l->each_kg);
	}
}

void text_order(FILE *to, const struct takeoff *t)
{
	const struct materials *m = &t->materials;
	const struct plan_costs *c = &t->plan.costs;
	char money[40];

	text_title(to, t, "Order");
	for (size_t i = 0; i < m->order_count; i++)
		put_order(to, m, &m->orders[i]);
	put_away(to, m);
	fputs("Together\n", to);
	put_haul(to, m, &m->in, "to bring in");
	put_haul(to, m, &m->away, "to cart away");
	if (m->price_minor >= 0)
		text_line(to, "price", "%s %s", money_print(money, sizeof money, m->price_minor),
		        c->currency);
	else
		text_line(to, "price", "not known: %" PRId64 " of %zu lines have none", m->unpriced,
		        m->count);
	if (*c->price_date)
		text_line(to, "prices of", "%s", c->price_date);
	for (size_t i = 0; i < m->note_count; i++) {
		fputs(i ? "  " : "\nNotes\n  ", to);
		sheet_put_text(to, m->notes[i]);
		fputc('\n', to);
	}
	if (m->heaviest_kg > 0) {
		struct handling h = handling_of(&t->rules, m->heaviest_kg);
		char words[400];

		if (h.lift != LIFT_ONE)
			fprintf(to, "%sHeaviest piece: %s.\n", m->note_count ? "  " : "\n  ",
			        handling_print(words, sizeof words, &h));
	}
}

/* --- CSV --- */

static void number_or_empty(struct row *r, double value, int decimals)
{
	if (value > 0)
		row_real(r, value, decimals);
	else
		row_empty(r);
}

static void money_or_empty(struct row *r, int64_t minor)
{
	char money[40];

	if (minor < 0) {
		row_empty(r);
		return;
	}
	row_separate(r);
	fputs(money_print(money, sizeof money, minor), r->to);
}

static void line_row(struct row *r, const struct material_line *l, size_t number)
{
	row_text(r, "line");
	row_int(r, (int64_t)number + 1);
	row_text(r, order_line_what(l));
	row_text(r, l->name);
	row_text(r, l->away ? "" : l->supplier);
	row_real(r, l->needed, 3);
	row_text(r, l->unit);
	row_text(r, l->buy_words);
	number_or_empty(r, l->mass_kg, 1);
	money_or_empty(r, l->each_minor);
	money_or_empty(r, l->price_minor);
	row_text(r, l->note);
	row_end(r);
}

static void part_row(
        struct row *r, const struct material_line *l, const struct material_part *p, size_t number)
{
	row_text(r, "part");
	row_int(r, (int64_t)number + 1);
	row_text(r, order_line_what(l));
	row_text(r, p->what);
	row_empty(r);
	row_real(r, p->quantity, 6);
	row_text(r, l->unit);
	for (int i = 0; i < 4; i++)
		row_empty(r);
	row_text(r, p->formula);
	row_end(r);
}

static void haul_row(struct row *r, const char *name, const struct haul *h)
{
	row_text(r, "haul");
	row_empty(r);
	row_text(r, name);
	row_empty(r);
	row_empty(r);
	row_int(r, h->trips);
	row_text(r, "trips");
	row_empty(r);
	number_or_empty(r, h->mass_kg, 1);
	row_empty(r);
	row_empty(r);
	row_text(r, h->mass_known ? "" : "and what is not known");
	row_end(r);
}

static void note_row(struct row *r, const char *text)
{
	row_text(r, "note");
	for (int i = 0; i < 10; i++)
		row_empty(r);
	row_text(r, text);
	row_end(r);
}

void csv_order(FILE *to, const struct takeoff *t)
{
	const struct materials *m = &t->materials;
	struct row r = { to, false };

	ROW_HEADER(&r, "record", "line", "what", "name", "supplier", "needed", "unit", "buy",
	        "mass_kg", "price_each", "price", "text");
	for (size_t i = 0; i < m->count; i++) {
		const struct material_line *l = &m->lines[i];

		line_row(&r, l, i);
		for (size_t k = 0; k < l->part_count; k++)
			part_row(&r, l, &l->parts[k], i);
	}
	haul_row(&r, "in", &m->in);
	haul_row(&r, "away", &m->away);
	for (size_t i = 0; i < m->note_count; i++)
		note_row(&r, m->notes[i]);
}
