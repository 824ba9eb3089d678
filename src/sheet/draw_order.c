/* draw_order.c - what to order: slabs by stock, edging by the unit, and the cautions. */
#include "sheets.h"
#include "slabwright/sheet.h"
#include "table.h"

#include <inttypes.h>

static const char *count_words(struct drawing *d, int64_t n)
{
	return page_print(d, "%" PRId64, n);
}

static const char *size_words(struct drawing *d, int64_t length_um, int64_t width_um)
{
	char l[40], w[40];

	return page_print(
	        d, "%s x %s", mm_print(l, sizeof l, length_um), mm_print(w, sizeof w, width_um));
}

static const char *slab_words(struct drawing *d, const struct order_line *line)
{
	char mm[40];

	if (*line->slab->name)
		return line->slab->name;
	return page_print(
	        d, "slab, %s mm thick", mm_print(mm, sizeof mm, line->slab->thickness_um));
}

static const char *mass_words(struct drawing *d, double kg)
{
	return kg > 0 ? page_print(d, "%.0f", kg) : "-";
}

static const char *price_words(struct drawing *d, int64_t minor)
{
	char money[40];

	return minor < 0 ? "-" : page_print(d, "%s", money_print(money, sizeof money, minor));
}

static void list_slabs(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "slab", 52, ALIGN_LEFT },
		{ "size mm", 24, ALIGN_LEFT },
		{ "needed", 15, ALIGN_RIGHT },
		{ "breakage", 17, ALIGN_RIGHT },
		{ "order", 15, ALIGN_RIGHT },
		{ "mass kg", 17, ALIGN_RIGHT },
		{ "price", 22, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct order *o = &d->t->order;
	struct table t = table_begin(f, columns, 7, SIZE_BODY);

	for (size_t i = 0; i < o->line_count; i++) {
		const struct order_line *l = &o->lines[i];

		TABLE_ROW(&t, slab_words(d, l), size_words(d, l->length_um, l->width_um),
		        count_words(d, l->needed), count_words(d, l->allowance),
		        count_words(d, l->slabs), mass_words(d, l->slab_mass_kg * (double)l->slabs),
		        price_words(d, l->price_minor));
	}
	table_row_bold(&t, (const char *const[]){ "together", "", count_words(d, o->needed),
	                           count_words(d, o->allowance), count_words(d, o->slabs),
	                           mass_words(d, o->mass_kg), price_words(d, o->price_minor) });
	table_end(&t);
}

static void say_slabs(struct flow *f)
{
	struct drawing *d = f->d;
	const struct takeoff *t = d->t;
	const struct order *o = &t->order;
	char words[120];

	flow_paragraph(f,
	        page_print(d,
	                "Needed: %" PRId64 " laid whole and %zu for %" PRId64 " cut pieces%s.",
	                t->laid.whole, t->cuts.slabs, t->laid.cut,
	                t->cuts.slabs <= t->cuts.bound ? ", the least possible" : ""),
	        SIZE_BODY);
	if (o->packs)
		flow_paragraph(
		        f, page_print(d, "Packs of the mix: %" PRId64 ".", o->packs), SIZE_BODY);
	flow_paragraph(f,
	        page_print(d,
	                "The rule of thumb, area over slab plus 5 %%, says %" PRId64
	                ", which is %s.",
	                o->rule_of_thumb, thumb_print(words, sizeof words, o)),
	        SIZE_BODY);
	flow_paragraph(f,
	        "One batch: order all slabs of a kind at once and from one batch. Slabs bought "
	        "later seldom match in colour and size. Open the packs and mix them while laying.",
	        SIZE_BODY);
	flow_space(f, 2);
}

/* Corner pieces are bought besides the units. */
static void list_corner_pieces(struct table *t, const struct edging_line *l)
{
	struct drawing *d = t->flow->d;
	char mm[40];

	if (!l->corner_pieces)
		return;
	TABLE_ROW(t, "", "", "corner pieces",
	        page_print(d, "%s", mm_print(mm, sizeof mm, d->t->plan.edging[l->kind].corner_um)),
	        page_print(d, "%zu", l->corner_pieces), "", page_print(d, "%zu", l->corner_pieces));
}

static void list_edging(struct flow *f)
{
	static const struct table_column columns[] = {
		{ "edge", 32, ALIGN_LEFT },
		{ "length m", 20, ALIGN_RIGHT },
		{ "unit", 52, ALIGN_LEFT },
		{ "long mm", 18, ALIGN_RIGHT },
		{ "whole", 13, ALIGN_RIGHT },
		{ "cut", 11, ALIGN_RIGHT },
		{ "order", 16, ALIGN_RIGHT },
	};
	struct drawing *d = f->d;
	const struct edging_result *e = &d->t->edging;
	struct table t = table_begin(f, columns, 7, SIZE_BODY);
	char mm[40];

	for (size_t i = 0; i < e->count; i++) {
		const struct edging_line *l = &e->lines[i];
		bool bought = l->unit_um > 0;

		TABLE_ROW(&t, edge_kind_name(l->kind), metre_words(d, l->length_m * 1e6),
		        !bought         ? "nothing by the piece"
		        : *l->unit_name ? l->unit_name
		                        : "unit",
		        bought ? page_print(d, "%s", mm_print(mm, sizeof mm, l->unit_um)) : "",
		        bought ? count_words(d, l->whole) : "",
		        bought ? count_words(d, l->cut) : "",
		        bought ? count_words(d, l->units) : "");
		list_corner_pieces(&t, l);
	}
	table_end(&t);
}

static void say_edging(struct flow *f)
{
	const struct edging_result *e = &f->d->t->edging;

	for (size_t i = 0; i < e->count; i++)
		if (e->lines[i].kind == EDGE_PLANTER && e->lines[i].unit_um)
			flow_paragraph(f,
			        "Units of a planter wall are for each course, as many as you "
			        "build.",
			        SIZE_BODY);
	flow_space(f, 2);
}

static void say_caution(void *flow, const char *text)
{
	flow_paragraph(flow, text, SIZE_BODY);
}

void draw_order(struct drawing *d, const char *title)
{
	struct page_head head = { title, "", NULL, NULL };
	struct flow flow;
	struct box column;
	size_t first;

	page_begin(d, &head);
	first = d->page;
	column = d->frame;
	column.x1 = column.x0 + 164;
	flow = flow_begin(d, &head, &column);
	flow_heading(&flow, "Slabs", 20);
	list_slabs(&flow);
	say_slabs(&flow);
	flow_heading(&flow, "Edging", 20);
	list_edging(&flow);
	say_edging(&flow);
	if (d->page == first) {
		column = (struct box){ column.x1 + 10, column.y0, d->frame.x1, column.y1 };
		flow = flow_begin(d, &head, &column);
	}
	flow_heading(&flow, "Cautions", 10);
	sheet_cautions(d->t, say_caution, &flow);
}
