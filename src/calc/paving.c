/* paving.c - the sections laid, the pieces of all of them in one list, and the slabs they take. */
#include "slabwright/section.h"

#include "cutting.h"

#include <string.h>

/* --- laying --- */

/* Lays the field or a zone. */
static enum status lay_section(struct cutting *c, struct section *s)
{
	const struct plan_laying *l = &s->laying;
	enum status st = region_turn(c->mem, &s->region, (double)l->start_x_um,
	        (double)l->start_y_um, l->rotation_udeg, &s->frame_region, c->err);

	if (st == STATUS_OK)
		st = lay_region(c->mem, &s->frame_region, l, &s->laid, c->err);
	if (st == STATUS_PLAN && s->kind == SECTION_ZONE && c->err) {
		struct error why = *c->err;

		error_set(c->err, STATUS_PLAN, "%s: %s", s->name, why.text);
	}
	return st;
}

static enum status lay_rest(struct cutting *c)
{
	enum status st = STATUS_OK;

	for (size_t i = 0; i < c->out->section_count && st == STATUS_OK; i++) {
		struct section *s = &c->out->sections[i];

		if (s->kind != SECTION_BORDER && s->paved)
			st = lay_section(c, s);
	}
	return st;
}

/* Areas add up to the paving's: what arcs have beyond their chords, and the gaps, are the field's.
 */
static void share_area(struct paving *p, double area_m2)
{
	for (size_t i = 1; i < p->section_count; i++) {
		p->sections[i].area_m2 = region_area_um2(&p->sections[i].region) * 1e-12;
		area_m2 -= p->sections[i].area_m2;
	}
	p->sections[0].area_m2 = area_m2;
}

/* --- stocks --- */

static bool same_slab(const struct stock_slab *a, const struct stock_slab *b)
{
	return a->length_um == b->length_um && a->width_um == b->width_um && !a->share &&
	       !b->share && slab_alike(&a->slab, &b->slab);
}

/* The slab that a size of a section is bought as. */
static struct stock_slab stock_wanted(const struct paving *p, size_t section, int size)
{
	const struct section *s = &p->sections[section];
	const struct slab_kind *kind = &s->laid.pattern.sizes[size];
	struct stock_slab k = { .slab = s->laying.slab,
		.length_um = kind->length_um,
		.width_um = kind->width_um,
		.section = section };
	bool random = s->kind != SECTION_BORDER && s->laying.bond == BOND_COURSED_RANDOM;

	if (s->kind != SECTION_BORDER && !bond_of_one_slab(s->laying.bond)) {
		k.slab.name = "";
		k.slab.price_minor = -1;
	}
	for (size_t i = 0; random && i < s->laying.mix.count; i++)
		if (s->laid.pattern.parts[i].size == size)
			k.share += s->laying.mix.sizes[i].share;
	return k;
}

static enum status take_stock(struct cutting *c, size_t section, int size, size_t *room)
{
	struct paving *p = c->out;
	struct section *s = &p->sections[section];
	struct stock_slab want = stock_wanted(p, section, size), *grown;
	size_t at = 0;

	while (at < p->stock_count && !same_slab(&p->stocks[at], &want))
		at++;
	if (at == p->stock_count) {
		grown = arena_grow(c->mem, p->stocks, p->stock_count, room, sizeof *grown);
		if (!grown)
			return error_memory(c->err);
		p->stocks = grown;
		p->stocks[p->stock_count++] = want;
	}
	p->stocks[at].whole += s->laid.of_size[size].whole;
	p->stocks[at].thumb += s->area_m2 * s->laid.pattern.sizes[size].per_m2;
	s->stock[size] = at;
	return STATUS_OK;
}

static enum status take_stocks(struct cutting *c)
{
	size_t room = 0;
	enum status st = STATUS_OK;

	for (size_t i = 0; i < c->out->section_count; i++)
		for (int k = 0; k < c->out->sections[i].laid.pattern.size_count; k++)
			if (st == STATUS_OK)
				st = take_stock(c, i, k, &room);
	return st;
}

/* All pieces in one list; each section's laying then points into it. */
static enum status gather_pieces(struct cutting *c)
{
	struct paving *p = c->out;
	size_t count = 0;

	for (size_t i = 0; i < p->section_count; i++)
		count += p->sections[i].laid.piece_count;
	p->pieces = p->section_count == 1 ? p->sections[0].laid.pieces
	                                  : arena_alloc(c->mem, count, sizeof *p->pieces);
	if (count && !p->pieces)
		return error_memory(c->err);
	for (size_t i = 0; i < p->section_count; i++) {
		struct section *s = &p->sections[i];
		struct piece *to = p->pieces + p->piece_count;

		if (s->laid.piece_count && to != s->laid.pieces)
			memcpy(to, s->laid.pieces, s->laid.piece_count * sizeof *to);
		for (size_t k = 0; k < s->laid.piece_count; k++) {
			to[k].section = i;
			to[k].stock = s->stock[to[k].size];
		}
		s->laid.pieces = to;
		p->piece_count += s->laid.piece_count;
		p->whole += s->laid.whole;
		p->cut += s->laid.cut;
		p->sliver += s->laid.sliver;
		p->made_up += s->laid.made_up;
		p->pieces_area_m2 += s->laid.pieces_area_m2;
	}
	return STATUS_OK;
}

enum status paving_lay(struct arena *mem, const struct plan *plan, const struct region *region,
        double area_m2, struct paving *out, struct error *err)
{
	struct cutting c = { .mem = mem, .plan = plan, .left = *region, .out = out, .err = err };
	enum status st;

	*out = (struct paving){ 0 };
	if ((st = cut_sections(&c)) != STATUS_OK || (st = lay_rest(&c)) != STATUS_OK)
		return st;
	share_area(out, area_m2);
	st = take_stocks(&c);
	return st == STATUS_OK ? gather_pieces(&c) : st;
}

enum status paving_lay_field(struct arena *mem, const struct paving *from,
        const struct plan_laying *laying, struct paving *out, struct error *err)
{
	struct cutting c = { .mem = mem, .out = out, .err = err };
	enum status st;

	*out = (struct paving){ .section_count = from->section_count,
		.sections = arena_alloc(mem, from->section_count, sizeof *out->sections) };
	if (!out->sections)
		return error_memory(err);
	memcpy(out->sections, from->sections, from->section_count * sizeof *out->sections);
	out->sections[0].laying = *laying;
	if ((st = lay_section(&c, &out->sections[0])) != STATUS_OK ||
	        (st = take_stocks(&c)) != STATUS_OK)
		return st;
	return gather_pieces(&c);
}

struct cut_stock paving_stock(
        const struct paving *paving, const struct plan_laying *laying, size_t stock)
{
	const struct stock_slab *k = &paving->stocks[stock];

	return (struct cut_stock){ k->length_um, k->width_um, laying->kerf_um, k->slab.directional,
		laying->edges };
}

/* All of them; NULL when memory is gone. */
static struct cut_stock *saw_stocks(
        struct arena *mem, const struct paving *paving, const struct plan_laying *laying)
{
	struct cut_stock *stocks = arena_alloc(mem, paving->stock_count, sizeof *stocks);

	for (size_t i = 0; stocks && i < paving->stock_count; i++)
		stocks[i] = paving_stock(paving, laying, i);
	return stocks;
}

enum status paving_cuts(struct arena *mem, const struct paving *paving,
        const struct plan_laying *laying, struct cutplan *out, struct error *err)
{
	struct cut_stock *stocks = saw_stocks(mem, paving, laying);

	return stocks ? cutplan_make(mem, paving->pieces, paving->piece_count, stocks,
	                        paving->stock_count, out, err)
	              : error_memory(err);
}

enum status paving_of_stocks(struct arena *mem, const struct paving *from, const bool *stocks,
        struct paving *out, struct error *err)
{
	*out = *from;
	out->piece_count = 0;
	out->pieces = arena_alloc(mem, from->piece_count, sizeof *out->pieces);
	if (!out->pieces)
		return error_memory(err);
	for (size_t i = 0; i < from->piece_count; i++)
		if (stocks[from->pieces[i].stock])
			out->pieces[out->piece_count++] = from->pieces[i];
	return STATUS_OK;
}

enum status paving_search(struct arena *mem, const struct paving *paving,
        const struct plan_laying *laying, const struct cutplan *cuts, struct cut_search **out,
        struct error *err)
{
	struct cut_stock *stocks = saw_stocks(mem, paving, laying);

	return stocks ? cut_search_begin(mem, paving->pieces, paving->piece_count, stocks,
	                        paving->stock_count, cuts, out, err)
	              : error_memory(err);
}

struct point section_from_plan(const struct section *s, struct point p)
{
	struct point q;

	if (!s->strip)
		return frame_from_plan(p, (double)s->laying.start_x_um,
		        (double)s->laying.start_y_um, s->laying.rotation_udeg);
	q = strip_from_plan(s->strip, p);
	return (struct point){ q.x * s->stretch, q.y };
}

struct point plan_from_section(const struct section *s, struct point p)
{
	if (!s->strip)
		return plan_from_frame(p, (double)s->laying.start_x_um,
		        (double)s->laying.start_y_um, s->laying.rotation_udeg);
	return plan_from_strip(s->strip, (struct point){ p.x / s->stretch, p.y });
}

const struct section *section_at(const struct paving *paving, struct point p)
{
	for (size_t i = 0; i < paving->section_count; i++)
		if (region_contains(&paving->sections[i].region, p))
			return &paving->sections[i];
	return NULL;
}

const struct section *section_of_piece(const struct paving *paving, const struct piece *piece)
{
	return &paving->sections[piece->section];
}
