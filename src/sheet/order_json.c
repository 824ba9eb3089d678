/* order_json.c - the order for programs, in JSON. */
#include "order.h"
#include "slabwright/json.h"

static void known(struct json *j, const char *key, double value)
{
	if (value > 0)
		json_real(j, key, tidy(value));
	else
		json_null(j, key);
}

static void json_parts(struct json *j, const struct material_line *l)
{
	json_array(j, "parts");
	for (size_t i = 0; i < l->part_count; i++) {
		json_object_tight(j, NULL);
		json_text(j, "what", l->parts[i].what);
		json_real(j, "quantity", tidy(l->parts[i].quantity));
		json_text(j, "formula", l->parts[i].formula);
		json_text(j, "source", l->parts[i].source);
		json_end(j);
	}
	json_end(j);
}

static void json_line(struct json *j, const struct material_line *l)
{
	bool tenths = !l->piece && (l->sold == SOLD_LOOSE || l->sold == SOLD_M3);

	json_object(j, NULL);
	json_text(j, "what", order_line_what(l));
	json_text(j, "name", l->name);
	json_text(j, "supplier", l->supplier);
	json_bool(j, "away", l->away);
	json_text(j, "unit", l->unit);
	json_real(j, "net", tidy(l->net));
	json_real(j, "wastage", tidy(l->wastage));
	json_real(j, "needed", tidy(l->needed));
	known(j, "loose_m3", l->loose_m3);
	known(j, "needed_kg", l->needed_kg);
	json_text(j, "sold", l->piece ? "piece" : sold_name(l->sold));
	json_real(j, "buy", tenths ? (double)l->buy / 10 : (double)l->buy);
	json_text(j, "buy_words", l->buy_words);
	known(j, "each_kg", l->each_kg);
	known(j, "mass_kg", l->mass_kg);
	minor_or_null(j, "price_each", l->each_minor);
	minor_or_null(j, "price", l->price_minor);
	json_text(j, "note", l->note);
	json_parts(j, l);
	json_end(j);
}

/* Lines are numbered from 1. */
static void json_numbers(struct json *j, const char *key, const size_t *lines, size_t count)
{
	json_array_tight(j, key);
	for (size_t i = 0; i < count; i++)
		json_int(j, NULL, (int64_t)lines[i] + 1);
	json_end(j);
}

static void json_haul(struct json *j, const char *key, const struct haul *h)
{
	json_object(j, key);
	json_real(j, "mass_kg", tidy(h->mass_kg));
	json_bool(j, "mass_known", h->mass_known);
	json_int(j, "trips", h->trips);
	json_int(j, "trips_at_least", h->least);
	json_array(j, "loads");
	for (size_t i = 0; i < h->load_count; i++) {
		json_object_tight(j, NULL);
		json_int(j, "times", h->loads[i].times);
		json_real(j, "kg", tidy(h->loads[i].kg));
		json_array_tight(j, "items");
		for (size_t k = 0; k < h->loads[i].count; k++) {
			const struct load_item *item = &h->loads[i].items[k];

			json_object_tight(j, NULL);
			json_int(j, "line", (int64_t)item->line + 1);
			json_int(j, "pieces", item->pieces);
			json_real(j, "kg", tidy(item->kg));
			json_end(j);
		}
		json_end(j);
		json_end(j);
	}
	json_end(j);
	json_numbers(j, "too_heavy", h->too_heavy, h->too_heavy_count);
	json_end(j);
}

void json_order(struct json *j, const struct takeoff *t)
{
	const struct materials *m = &t->materials;

	json_object(j, NULL);
	json_text(j, "variant", t->plan.name);
	json_text(j, "currency", t->plan.costs.currency);
	json_text(j, "price_date", t->plan.costs.price_date);
	json_array(j, "lines");
	for (size_t i = 0; i < m->count; i++)
		json_line(j, &m->lines[i]);
	json_end(j);
	json_array(j, "orders");
	for (size_t i = 0; i < m->order_count; i++) {
		const struct supplier_order *o = &m->orders[i];

		json_object(j, NULL);
		json_text(j, "supplier", o->supplier);
		json_numbers(j, "lines", o->lines, o->count);
		json_real(j, "mass_kg", tidy(o->mass_kg));
		json_bool(j, "mass_known", o->mass_known);
		minor_or_null(j, "price", o->price_minor);
		json_end(j);
	}
	json_end(j);
	json_haul(j, "in", &m->in);
	json_haul(j, "away", &m->away);
	minor_or_null(j, "price", m->price_minor);
	json_int(j, "unpriced", m->unpriced);
	json_array(j, "notes");
	for (size_t i = 0; i < m->note_count; i++)
		json_text(j, NULL, m->notes[i]);
	json_end(j);
	json_end(j);
}
