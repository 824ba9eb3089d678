/* materials.c - what a take-off takes, line by line, and how each line is bought.
 *
 * Every module adds its parts to the line of its material, or of its sort of piece; then each line
 * is closed: wastage, loose volume, mass, bags, price. */
#include "slabwright/materials.h"

#include "materials_parts.h"
#include "slabwright/money.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

const char PRACTICE[] = "common practice";

static const double SPARE = 1e-6; /* of one unit: see buy_units */
static const double PALLET_KG = 1500; /* common practice */
static const int64_t PALLET_WIDE_UM = 1200000; /* pallets are 1.0 to 1.2 m wide, likewise */

/* --- collecting --- */

static const struct {
	const char *unit;
	bool loose; /* the net quantity is a loose volume already */
	const char *note;
} kinds[MATERIALS] = {
	[MATERIAL_MEMBRANE] = { "m2", false, "" },
	[MATERIAL_SUB_BASE] = { "m3", false, "" },
	[MATERIAL_BEDDING] = { "m3", false, "" },
	[MATERIAL_JOINTING] = { "m3", false, "Keep it dry in its bags until it is used." },
	[MATERIAL_CEMENT] = { "kg", false,
	        "Keep it dry, off the ground and in its bags until it is used." },
	[MATERIAL_SAND] = { "m3", true, "" },
	[MATERIAL_AGGREGATE] = { "m3", true, "" },
	[MATERIAL_GRAVEL] = { "m3", false, "" },
	[MATERIAL_SOIL] = { "m3", true, "" },
	[MATERIAL_LINER] = { "m2", false, "" },
	[MATERIAL_SEALER] = { "litres", false, "Keep it from frost, closed until it is used." },
	[MATERIAL_FILL] = { "m3", false, "" },
	[MATERIAL_SPOIL] = { "m3", true, "" },
	[MATERIAL_TOPSOIL] = { "m3", true, "" },
};

static void add_part(struct making *m, struct open_line *o, double quantity, struct reason why)
{
	struct material_part *parts;

	if (!why.what || !why.formula) {
		m->failed = true;
		return;
	}
	parts = arena_grow(m->mem, o->line.parts, o->line.part_count, &o->room, sizeof *parts);
	if (!parts) {
		m->failed = true;
		return;
	}
	parts[o->line.part_count++] =
	        (struct material_part){ why.what, why.formula, why.source, quantity };
	o->line.parts = parts;
	o->line.net += quantity;
}

void take_bulk(struct making *m, enum material which, double quantity, struct reason why)
{
	if (m->failed || quantity <= 0 || !m->costs->materials[which].used)
		return;
	add_part(m, &m->bulk[which], quantity, why);
}

static bool same_sort(const struct material_line *line, const struct piece_sort *sort)
{
	return line->goods == sort->goods && line->each_minor == sort->price_minor &&
	       llround(line->each_kg * 1000) == llround(sort->kg * 1000) &&
	       strcmp(line->name, sort->name) == 0;
}

struct material_line *take_pieces(
        struct making *m, const struct piece_sort *sort, double count, struct reason why)
{
	struct open_line *grown;
	size_t at = 0;

	m->failed = m->failed || !sort->name;
	if (m->failed)
		return NULL;
	while (at < m->piece_count && !same_sort(&m->pieces[at].line, sort))
		at++;
	if (at == m->piece_count) {
		grown = arena_grow(
		        m->mem, m->pieces, m->piece_count, &m->piece_room, sizeof *grown);
		if (!grown) {
			m->failed = true;
			return NULL;
		}
		m->pieces = grown;
		m->pieces[m->piece_count++] =
		        (struct open_line){ .line = { .piece = true,
			                            .goods = sort->goods,
			                            .name = sort->name,
			                            .each_kg = sort->kg,
			                            .each_minor = sort->price_minor,
			                            .note = sort->note } };
	}
	if (count > 0)
		add_part(m, &m->pieces[at], count, why);
	return &m->pieces[at].line;
}

void take_note(struct making *m, const char *note)
{
	const char **notes =
	        note ? arena_grow(m->mem, m->notes, m->note_count, &m->note_room, sizeof *notes)
	             : NULL;

	if (!notes) {
		m->failed = true;
		return;
	}
	m->notes = notes;
	m->notes[m->note_count++] = note;
}

/* --- buying --- */

int64_t buy_units(double needed, double holds)
{
	return needed <= 0 ? 0 : (int64_t)ceil(needed / holds - SPARE);
}

int64_t buy_tenths(double needed)
{
	return buy_units(needed, 0.1);
}

int64_t line_price_minor(int64_t quantity_milli, int64_t each_minor)
{
	return each_minor < 0 ? -1 : money_times(quantity_milli, each_minor);
}

/* Bags and the like by what one holds; mass where that is known. */
static void buy_bulk(struct making *m, struct material_line *l)
{
	double each = (double)l->holds * 1e-3;
	enum measured_as as = material_measure(l->material);
	const char *words = l->sold == SOLD_CAN ? "litres" : l->sold == SOLD_ROLL ? "m2" : "kg";
	int64_t density = m->costs->materials[l->material].loose_kg_m3;

	if (l->sold == SOLD_LOOSE) {
		l->buy = buy_tenths(l->needed_kg * 1e-3);
		l->mass_kg = (double)l->buy * 100;
		l->buy_words = arena_print(m->mem, "%.1f t loose", (double)l->buy / 10);
	} else if (l->sold == SOLD_M3) {
		l->buy = buy_tenths(l->loose_m3);
		l->mass_kg = (double)l->buy * 0.1 * (double)density;
		l->buy_words = arena_print(m->mem, "%.1f m3 loose", (double)l->buy / 10);
	} else {
		l->buy = buy_units(as == AS_MASS ? l->needed_kg : l->needed, each);
		l->each_kg = as == AS_MASS ? each : 0;
		l->mass_kg = l->each_kg * (double)l->buy;
		l->buy_words = arena_print(m->mem, "%" PRId64 " %s%s of %g %s", l->buy,
		        sold_name(l->sold), l->buy == 1 ? "" : "s", each, words);
	}
	l->price_minor = line_price_minor(
	        l->buy * (l->sold == SOLD_LOOSE || l->sold == SOLD_M3 ? 100 : 1000), l->each_minor);
}

static void close_bulk(struct making *m, enum material which)
{
	const struct plan_material *p = &m->costs->materials[which];
	struct material_line *l = &m->bulk[which].line;

	l->material = which;
	l->name = p->name;
	l->supplier = p->supplier;
	l->away = which == MATERIAL_SPOIL || which == MATERIAL_TOPSOIL;
	l->unit = kinds[which].unit;
	l->note = kinds[which].note;
	l->sold = p->sold;
	l->holds = p->holds;
	l->each_minor = p->price_minor;
	l->wastage = l->net * (double)p->wastage_ppm * 1e-6;
	l->needed = l->net + l->wastage;
	if (material_measure(which) == AS_MASS) {
		double per_m3 = (double)p->loose_kg_m3;

		l->loose_m3 = which == MATERIAL_CEMENT ? l->needed / per_m3
		              : kinds[which].loose     ? l->needed
		                                   : earth_loose_for(l->needed, p->compaction_ppm);
		l->needed_kg = which == MATERIAL_CEMENT ? l->needed : l->loose_m3 * per_m3;
	}
	buy_bulk(m, l);
}

static void close_pieces(struct making *m, struct material_line *l)
{
	l->supplier = m->costs->suppliers[l->goods];
	l->unit = "pieces";
	l->needed = l->net + l->wastage;
	if (!l->buy)
		l->buy = llround(l->needed);
	l->needed_kg = l->each_kg * l->needed;
	l->mass_kg = l->each_kg * (double)l->buy;
	l->price_minor = line_price_minor(l->buy * 1000, l->each_minor);
	l->buy_words = l->holds > 1 ? arena_print(m->mem,
	                                      "%" PRId64 " pieces, %" PRId64 " packs of %" PRId64,
	                                      l->buy, l->buy / l->holds, l->holds)
	                            : arena_print(m->mem, "%" PRId64 " piece%s", l->buy,
	                                      l->buy == 1 ? "" : "s");
}

/* All lines that have something, closed. */
static enum status close_lines(struct making *m, struct materials *out, struct error *err)
{
	out->lines = arena_alloc(m->mem, MATERIALS + m->piece_count, sizeof *out->lines);
	if (!out->lines)
		return error_memory(err);
	for (int i = 0; i < MATERIALS; i++)
		if (m->bulk[i].line.part_count) {
			close_bulk(m, (enum material)i);
			out->lines[out->count++] = m->bulk[i].line;
		}
	for (int g = 0; g < GOODS; g++)
		for (size_t i = 0; i < m->piece_count; i++) {
			struct material_line *l = &m->pieces[i].line;

			if (l->goods != (enum goods)g || (!l->part_count && !l->buy))
				continue;
			close_pieces(m, l);
			out->lines[out->count++] = *l;
		}
	for (size_t i = 0; i < out->count; i++)
		if (!out->lines[i].buy_words)
			return error_memory(err);
	return STATUS_OK;
}

/* --- the whole --- */

static int64_t sum_known(int64_t sum, int64_t add)
{
	return sum < 0 || add < 0 ? -1 : sum + add;
}

static struct supplier_order *order_of(struct materials *out, const char *supplier)
{
	for (size_t i = 0; i < out->order_count; i++)
		if (strcmp(out->orders[i].supplier, supplier) == 0)
			return &out->orders[i];
	out->orders[out->order_count] =
	        (struct supplier_order){ .supplier = supplier, .mass_known = true };
	return &out->orders[out->order_count++];
}

static enum status make_orders(struct making *m, struct materials *out, struct error *err)
{
	out->orders = arena_alloc(m->mem, out->count, sizeof *out->orders);
	if (!out->orders)
		return error_memory(err);
	for (size_t i = 0; i < out->count; i++) {
		const struct material_line *l = &out->lines[i];
		struct supplier_order *o;

		if (l->away)
			continue;
		o = order_of(out, l->supplier ? l->supplier : "");
		if (!o->lines)
			o->lines = arena_alloc(m->mem, out->count, sizeof *o->lines);
		if (!o->lines)
			return error_memory(err);
		o->lines[o->count++] = i;
		o->mass_kg += l->mass_kg;
		o->mass_known = o->mass_known && l->mass_kg > 0;
		o->price_minor = sum_known(o->price_minor, l->price_minor);
	}
	return STATUS_OK;
}

static void sum_up(struct materials *out)
{
	for (size_t i = 0; i < out->count; i++) {
		const struct material_line *l = &out->lines[i];

		out->price_minor = sum_known(out->price_minor, l->price_minor);
		out->unpriced += l->price_minor < 0;
		if (!l->away && (l->piece || l->sold != SOLD_BULK_BAG) &&
		        l->each_kg > out->heaviest_kg) {
			out->heaviest_kg = l->each_kg;
			out->heaviest = i;
		}
	}
}

static void note_delivery(struct making *m, const struct materials *out)
{
	int64_t access = m->costs->access_um;
	double slabs = 0;

	for (size_t i = 0; i < out->count; i++)
		if (out->lines[i].piece && out->lines[i].goods == GOODS_SLABS)
			slabs += out->lines[i].mass_kg;
	if (slabs > 0)
		take_note(
		        m, arena_print(m->mem,
		                   "The slabs weigh %.0f kg: about %.0f pallet%s of up to %.0f kg "
		                   "(common practice).",
		                   slabs, ceil(slabs / PALLET_KG), slabs > PALLET_KG ? "s" : "",
		                   PALLET_KG));
	if (access > 0 && access < PALLET_WIDE_UM)
		take_note(m,
		        arena_print(m->mem,
		                "The way in is %.2f m wide. Pallets are 1.0 to 1.2 m and bulk "
		                "bags 0.9 to 1.0 m wide (common practice): what does not pass is "
		                "carried or barrowed in from the street.",
		                (double)access * 1e-6));
}

static enum status finish(struct making *m, struct materials *out, struct error *err)
{
	int64_t payload = m->costs->payload_g;
	enum status st;

	if (m->failed)
		return error_memory(err);
	if ((st = close_lines(m, out, err)) != STATUS_OK ||
	        (st = make_orders(m, out, err)) != STATUS_OK ||
	        (st = haul_work_out(m->mem, out->lines, out->count, false, payload, &out->in,
	                 err)) != STATUS_OK ||
	        (st = haul_work_out(m->mem, out->lines, out->count, true, payload, &out->away,
	                 err)) != STATUS_OK)
		return st;
	sum_up(out);
	note_delivery(m, out);
	out->notes = m->notes;
	out->note_count = m->note_count;
	return m->failed ? error_memory(err) : STATUS_OK;
}

enum status materials_work_out(
        struct arena *mem, const struct takeoff *t, struct materials *out, struct error *err)
{
	struct making *m = arena_alloc(mem, 1, sizeof *m);
	struct error why = { 0 };

	*out = (struct materials){ 0 };
	if (!m)
		return error_memory(err);
	m->mem = mem;
	m->t = t;
	m->costs = &t->plan.costs;
	if (costs_check(m->costs, "costs.", &why) != STATUS_OK) {
		take_note(m, arena_print(mem, "Nothing can be ordered: %s.", why.text));
		return finish(m, out, err);
	}
	if (t->ready)
		take_layers(m);
	take_mixes(m);
	take_earth(m);
	if (t->ready)
		take_paving_goods(m);
	take_planter_goods(m);
	return finish(m, out, err);
}

const struct material_line *materials_find(const struct materials *m, enum material material)
{
	for (size_t i = 0; i < m->count; i++)
		if (!m->lines[i].piece && m->lines[i].material == material)
			return &m->lines[i];
	return NULL;
}
