/* materials_goods.c - what is bought by the piece: slabs, edging, blocks, steps, drains. */
#include "materials_parts.h"

#include <inttypes.h>
#include <math.h>

static const double CHANNEL_M = 1; /* length of a channel as it comes (common practice) */
static const double CRATE_VOIDS = 0.6; /* a soakaway with less is filled with gravel */

/* "600 x 300 x 50 mm" behind a name, or behind what it is where it has none. */
static const char *sized(
        struct making *m, const char *name, const char *what, const int64_t size_um[3])
{
	char a[40], b[40], c[40];

	return arena_print(m->mem, "%s%s %s x %s x %s mm", *name ? name : what, *name ? "," : "",
	        mm_print(a, sizeof a, size_um[0]), mm_print(b, sizeof b, size_um[1]),
	        mm_print(c, sizeof c, size_um[2]));
}

/* A name, or what it is and a length. */
static const char *named(struct making *m, const char *name, const char *what, int64_t um)
{
	char mm[40];

	return *name ? name : arena_print(m->mem, "%s of %s mm", what, mm_print(mm, sizeof mm, um));
}

/* --- slabs --- */

static const char SLAB_NOTE[] = "One batch: order all at once; mix the packs while laying.";

static void take_slabs(struct making *m, size_t stock)
{
	const struct takeoff *t = m->t;
	const struct order_line *o = &t->order.lines[stock];
	const int64_t size[] = { o->length_um, o->width_um, o->slab->thickness_um };
	const struct piece_sort sort = { GOODS_SLABS, sized(m, o->slab->name, "slab", size),
		o->slab_mass_kg, o->slab->price_minor, SLAB_NOTE };
	int64_t whole = t->laid.stocks[stock].whole;
	int64_t cuts = (int64_t)t->cuts.of_stock[stock].slabs;
	struct material_line *line;

	if (!o->slabs)
		return;
	take_pieces(m, &sort, (double)whole,
	        (struct reason){ "laid whole", arena_print(m->mem, "%" PRId64, whole), "" });
	line = take_pieces(m, &sort, (double)cuts,
	        (struct reason){ "for the cut pieces", arena_print(m->mem, "%" PRId64, cuts),
	                "the cut plan" });
	if (!line)
		return;
	line->wastage += (double)o->allowance;
	line->buy += o->slabs;
	line->holds = o->slab->pack;
	if (o->packs)
		take_note(m, arena_print(m->mem, "%s: in %" PRId64 " packs of the mix.", sort.name,
		                     o->packs));
}

/* --- edging --- */

static double edging_kg(const struct takeoff *t, enum edge_kind kind)
{
	for (size_t i = 0; i < t->kerbs.count; i++)
		if (t->kerbs.lines[i].kind == kind)
			return t->kerbs.lines[i].unit_kg;
	return 0;
}

static void take_edging(struct making *m, const struct edging_line *l)
{
	const struct plan_edging *e = &m->t->plan.edging[l->kind];
	struct piece_sort sort = { GOODS_EDGING, named(m, e->name, "edging unit", e->unit_um),
		edging_kg(m->t, l->kind), e->price_minor, "" };
	const char *what = arena_print(
	        m->mem, "along %.2f m of %s edges", l->length_m, edge_kind_name(l->kind));

	if (!l->unit_um)
		return;
	take_pieces(m, &sort, (double)l->units,
	        (struct reason){ what,
	                arena_print(m->mem,
	                        "%" PRId64 " whole and %" PRId64 " for %" PRId64 " cut pieces",
	                        l->whole, l->units - l->whole, l->cut),
	                "" });
	sort = (struct piece_sort){ GOODS_EDGING,
		arena_print(m->mem, "%s, corner piece", sort.name), 0, -1, "" };
	take_pieces(m, &sort, (double)l->corner_pieces,
	        (struct reason){
	                what, arena_print(m->mem, "%zu outer corners", l->corner_pieces), "" });
}

/* --- planters --- */

static void take_blocks(struct making *m, const struct planter_result *r, const char *what)
{
	const struct plan_block *b = &r->planter->block;
	const int64_t size[] = { b->length_um, b->width_um, b->height_um };
	const char *name = sized(m, b->name, "block", size);
	const struct planter_blocks *k = &r->blocks;
	struct piece_sort sort = { GOODS_BLOCKS, name, r->block_kg, b->price_minor, "" };

	take_pieces(m, &sort, (double)k->buy_whole,
	        (struct reason){ what,
	                arena_print(m->mem,
	                        "%" PRId64 " laid whole, %" PRId64 " at corners, and for %" PRId64
	                        " halves and %" PRId64 " cut pieces",
	                        k->whole, k->buy_corner ? 0 : k->corner, k->buy_half ? 0 : k->half,
	                        k->cut),
	                "" });
	sort.name = arena_print(m->mem, "%s, corner block", name);
	take_pieces(m, &sort, (double)k->buy_corner,
	        (struct reason){ what, arena_print(m->mem, "%" PRId64, k->buy_corner), "" });
	sort.name = arena_print(m->mem, "%s, half", name);
	sort.kg = r->block_kg / 2;
	take_pieces(m, &sort, (double)k->buy_half,
	        (struct reason){ what, arena_print(m->mem, "%" PRId64, k->buy_half), "" });
}

static void take_fixings(struct making *m, const struct planter_result *r, const char *what)
{
	const struct plan_planter *p = r->planter;
	const struct piece_sort tie = { GOODS_BLOCKS, "wall tie", 0, -1, "" },
	                        fixing = { GOODS_BLOCKS, "fixing of the cap", 0, -1, "" },
	                        cap = { GOODS_BLOCKS, named(m, p->cap_name, "cap", p->cap_um), 0,
		                        p->cap_price_minor, "" };
	char mm[40];

	take_pieces(m, &tie, (double)r->tie_count,
	        (struct reason){ what,
	                arena_print(m->mem, "in %" PRId64 " courses, at most %s mm apart",
	                        p->courses, mm_print(mm, sizeof mm, p->tie_um)),
	                "" });
	if (!p->cap_um)
		return;
	take_pieces(m, &cap, (double)r->cap.units,
	        (struct reason){ what,
	                arena_print(m->mem, "%" PRId64 " whole and for %" PRId64 " cut pieces",
	                        r->cap.whole, r->cap.cut),
	                "" });
	take_pieces(m, &fixing, (double)r->cap.fixing_count,
	        (struct reason){ what,
	                arena_print(m->mem, "at most %s mm apart",
	                        mm_print(mm, sizeof mm, p->cap_fixing_um)),
	                PRACTICE });
}

static void take_filling(struct making *m, const struct planter_result *r, const char *what)
{
	const struct planter_fill *f = &r->fill;
	double face = f->liner_m2 / PLANTER_LINER_LAPS;
	char mm[40];

	take_bulk(m, MATERIAL_GRAVEL, f->gravel_m3,
	        (struct reason){ what,
	                arena_print(m->mem, "%.3f m2 x %s mm", f->inside_m2,
	                        mm_print(mm, sizeof mm, r->planter->gravel_um)),
	                "" });
	take_bulk(m, MATERIAL_SOIL, f->soil_loose_m3,
	        (struct reason){ what,
	                arena_print(m->mem, "%.3f m3 in place = %.3f m3 loose", f->soil_m3,
	                        f->soil_loose_m3),
	                "" });
	take_bulk(m, MATERIAL_LINER, face,
	        (struct reason){ what,
	                arena_print(m->mem, "%.3f m2 of inner face, as high as the fill", face),
	                "" });
}

void take_planter_goods(struct making *m)
{
	for (size_t i = 0; i < m->t->planters.count; i++) {
		const struct planter_result *r = &m->t->planters.items[i];
		char words[120];
		const char *what = arena_print(m->mem, "%s",
		        planter_words(words, sizeof words, &m->t->plan.planters[i], i));

		if (!r->ready) {
			take_note(m, arena_print(m->mem, "Not in the order: %s", r->fault.text));
			continue;
		}
		take_blocks(m, r, what);
		take_fixings(m, r, what);
		take_filling(m, r, what);
	}
}

/* --- steps --- */

static const char UNIT_NOTE[] = "Leave the units on their pallet, banded, until they are set.";

static void note_flight(struct making *m, const struct flight *f, const char *what)
{
	if (f->landing_m2 > 0)
		take_note(m, arena_print(m->mem, "The landing of %s, %.2f m2, is not in the order.",
		                     what, f->landing_m2));
	if (f->flank_m2 > 0)
		take_note(m, arena_print(m->mem,
		                     "The flank walls of %s, twice %.2f m2, are not in the order.",
		                     what, f->flank_m2));
}

static void take_flight(struct making *m, const struct flight *f, const char *what)
{
	const struct plan_steps *s = f->steps;
	bool built = s->build == STEPS_BUILT;
	const int64_t size[] = { s->unit_length_um, s->unit_depth_um,
		built ? s->tread_um : s->unit_height_um };
	const struct step_order *order = built ? &f->slabs : &f->order;
	struct piece_sort sort = { GOODS_STEPS, sized(m, s->unit_name, steps_piece_name(s), size),
		block_mass_kg(size[0], size[1], size[2], s->unit_density_kg_m3),
		s->unit_price_minor, built ? SLAB_NOTE : UNIT_NOTE };

	take_pieces(m, &sort, (double)order->units,
	        (struct reason){ what,
	                arena_print(m->mem, "%" PRId64 " whole and for %" PRId64 " cut pieces",
	                        order->whole, order->cut),
	                "" });
	if (built) {
		sort = (struct piece_sort){ GOODS_STEPS,
			named(m, "", "riser piece", s->unit_length_um), 0, -1, "" };
		take_pieces(m, &sort, (double)f->order.units,
		        (struct reason){ what,
		                arena_print(m->mem,
		                        "%" PRId64 " whole and for %" PRId64 " cut pieces",
		                        f->order.whole, f->order.cut),
		                "" });
	}
	note_flight(m, f, what);
}

static void take_steps(struct making *m)
{
	for (size_t i = 0; i < m->t->steps.count; i++) {
		const struct flight *f = &m->t->steps.flights[i];
		const char *what = *f->steps->name
		                           ? arena_print(m->mem, "flight %zu (%s) of steps", i + 1,
		                                     f->steps->name)
		                           : arena_print(m->mem, "flight %zu of steps", i + 1);

		if (f->fault)
			take_note(
			        m, arena_print(m->mem, "Not in the order: %s: %s", what, f->fault));
		else
			take_flight(m, f, what);
	}
}

/* --- drains --- */

static void take_channels(struct making *m)
{
	for (size_t i = 0; i < m->t->drainage.channel_count; i++) {
		const struct channel_result *c = &m->t->drainage.channels[i];
		const struct plan_channel *p = &m->t->plan.water.channels[i];
		char w[40], d[40];
		const struct piece_sort sort = { GOODS_DRAINS,
			arena_print(m->mem, "channel %s x %s mm, 1 m long, with grating",
			        mm_print(w, sizeof w, p->width_um),
			        mm_print(d, sizeof d, p->depth_um)),
			0, -1, "" };

		take_pieces(m, &sort, ceil(c->length_m / CHANNEL_M - 1e-6),
		        (struct reason){ arena_print(m->mem, "channel %zu", i + 1),
		                arena_print(m->mem, "%.3f m, in lengths of 1 m", c->length_m),
		                PRACTICE });
	}
	if (m->t->drainage.channel_count)
		take_note(m,
		        "End plates, outlets, pipes and the bed of the channels are not in the "
		        "order.");
}

static void take_soakaway(struct making *m)
{
	const struct plan_soakaway *s = &m->t->plan.water.soakaway;
	double share = (double)s->voids_ppm * 1e-6;
	const int64_t size[] = { s->length_um, s->width_um, s->depth_um };
	double m3 = (double)size[0] * (double)size[1] * (double)size[2] * 1e-18;
	const char *name = sized(m, "", "soakaway", size);
	const struct piece_sort sort = { GOODS_DRAINS,
		arena_print(m->mem, "crates with geotextile, %s, %g of it voids", name, share), 0,
		-1, "" };

	if (!s->has)
		return;
	if (share < CRATE_VOIDS)
		take_bulk(m, MATERIAL_GRAVEL, m3,
		        (struct reason){ name, arena_print(m->mem, "%.3f m3", m3), "" });
	else
		take_pieces(m, &sort, 1,
		        (struct reason){ name, arena_print(m->mem, "%.3f m3", m3), "" });
}

static void take_drains(struct making *m)
{
	const struct piece_sort gully = { GOODS_DRAINS, "gully with grating", 0, -1, "" };

	take_channels(m);
	for (size_t i = 0; i < m->t->plan.water.gully_count; i++) {
		const char *name = m->t->plan.water.gullies[i].name;

		take_pieces(m, &gully, 1,
		        (struct reason){
		                *name ? name : arena_print(m->mem, "gully %zu", i + 1), "1", "" });
	}
	take_soakaway(m);
}

void take_paving_goods(struct making *m)
{
	const struct takeoff *t = m->t;

	for (size_t i = 0; i < t->order.line_count; i++)
		take_slabs(m, i);
	for (size_t i = 0; i < t->edging.count; i++)
		take_edging(m, &t->edging.lines[i]);
	if (t->planters.count && t->plan.edging[EDGE_PLANTER].unit_um)
		take_note(m,
		        "Units are chosen for planter edges, and planters are laid out too: see "
		        "that the same wall is not ordered twice.");
	take_steps(m);
	take_drains(m);
}
