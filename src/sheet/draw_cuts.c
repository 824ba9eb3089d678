/* draw_cuts.c - the cut list: each slab that is cut as a small dimensioned sketch, its pieces in
 * place, with what they are and where they go. */
#include "label.h"
#include "sheets.h"
#include "table.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>

static const double CELL_MM = 60, SKETCH_WIDE_MM = 44, SKETCH_HIGH_MM = 24, SIDE_MM = 11;

struct sketch {
	struct drawing *d;
	const struct cut_source *source;
	const struct stock_slab *stock;
	struct point corner; /* of the slab on paper: lower left */
	double mm; /* of paper per um */
	double right; /* where the cell ends on paper */
};

static struct point on_sketch(const struct sketch *k, struct point p)
{
	return (struct point){ k->corner.x + p.x * k->mm, k->corner.y - p.y * k->mm };
}

/* A corner of a piece as it lies on the slab it is cut from. */
static struct point placed(struct point p, const struct cut_place *at)
{
	static const int turns[4][2] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
	const int *t = turns[at->turn / 90 % 4];

	return (struct point){ p.x * t[0] - p.y * t[1] + at->at.x,
		p.x * t[1] + p.y * t[0] + at->at.y };
}

static struct ring placed_ring(
        const struct sketch *k, const struct ring *r, const struct cut_place *at, bool on_paper)
{
	struct ring out = { arena_alloc(&k->d->page_mem, r->n + 1, sizeof *out.p), r->n, NULL };

	if (!out.p) {
		page_fail_memory(k->d);
		out.n = 0;
	}
	for (size_t i = 0; i < out.n; i++) {
		out.p[i] = placed(r->p[i], at);
		if (on_paper)
			out.p[i] = on_sketch(k, out.p[i]);
	}
	return out;
}

/* In the piece where there is room, else beside the slab with a line to it. */
static void number_piece(const struct sketch *k, const struct ring *rings, size_t n, size_t number,
        const struct box *cell)
{
	static const double sizes[] = { SIZE_HEAD, SIZE_BODY, SIZE_NOTE, SIZE_LEAST };
	struct drawing *d = k->d;
	struct point middle = rings_middle(rings, n);
	const char *words = page_print(d, "%zu", number);
	struct label beside = { .text = { words, .size = SIZE_NOTE, .bold = true },
		.at = middle,
		.clear = 2,
		.reach = 40,
		.leader = true,
		.prefer = -acos(-1) / 4,
		.within = *cell };

	for (int i = 0; i < 8; i++) {
		struct text t = { words, .size = sizes[i / 2], .bold = true,
			.turn = i % 2 ? -acos(-1) / 2 : 0 };
		struct patch p = text_patch(d, &t);

		p.at = middle;
		if (!rings_hold(&p, rings, n) || !taken_free(&d->taken, &p, TAKEN_TEXT))
			continue;
		page_text_at(d, &t, &p);
		return;
	}
	label_place(d, &beside);
}

static struct ring *rings_of_place(const struct sketch *k, const struct cut_place *at)
{
	const struct piece *p = &k->d->t->laid.pieces[at->piece];
	struct ring *rings = arena_alloc(&k->d->page_mem, p->shape.count + 1, sizeof *rings);

	if (!rings)
		page_fail_memory(k->d);
	for (size_t i = 0; rings && i < p->shape.count; i++)
		rings[i] = placed_ring(k, &p->shape.rings[i], at, true);
	return rings;
}

static void draw_piece(const struct sketch *k, const struct cut_place *at)
{
	const struct piece *p = &k->d->t->laid.pieces[at->piece];
	struct ring *rings = rings_of_place(k, at);
	size_t n = rings ? p->shape.count : 0;

	page_fill_rings(k->d, rings, n, p->kind == PIECE_SLIVER ? 0.8 : 0.9);
	for (size_t i = 0; i < n; i++)
		page_path(k->d, rings[i].p, rings[i].n, true, PEN_MEDIUM);
}

static int ascending(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return x < y ? -1 : x > y;
}

enum { MARKS = 24 };

/* Where cuts meet the slab's sides: the boxes' sides, and corners of pieces that are few. */
static int marks_of(const struct sketch *k, bool along_x, double *out)
{
	int n = 0;

	for (int i = 0; i < k->source->count && n + 2 < MARKS; i++) {
		const struct cut_place *at = &k->source->place[i];
		const struct piece *p = &k->d->t->laid.pieces[at->piece];
		struct box b = place_box(&p->box, at);
		const struct ring *r = &p->shape.rings[0];

		out[n++] = along_x ? b.x0 : b.y0;
		out[n++] = along_x ? b.x1 : b.y1;
		for (size_t c = 0; r->n <= 6 && c < r->n && n < MARKS - 2; c++) {
			struct point q = placed(r->p[c], at);

			out[n++] = along_x ? q.x : q.y;
		}
	}
	qsort(out, (size_t)n, sizeof *out, ascending);
	return n;
}

/* Distances from the slab's lower left corner, at ticks below it and to its left; a figure that
 * would touch the one before is left to the words. */
static void put_mark(const struct sketch *k, bool along_x, double um)
{
	struct drawing *d = k->d;
	struct point at = on_sketch(k, along_x ? (struct point){ um, 0 } : (struct point){ 0, um });
	struct text t = { mm_words(d, um), .size = SIZE_LEAST,
		.turn = along_x ? -acos(-1) / 2 : 0 };
	struct patch p = text_patch(d, &t);

	p.at = along_x ? (struct point){ at.x, at.y + 1.6 + p.along }
	               : (struct point){ at.x - 1.6 - p.along, at.y };
	if (!taken_free(&d->taken, &p, TAKEN_TEXT))
		return;
	page_line(d, at,
	        along_x ? (struct point){ at.x, at.y + 1.2 } : (struct point){ at.x - 1.2, at.y },
	        PEN_THIN);
	page_text_at(d, &t, &p);
}

static void put_marks(const struct sketch *k)
{
	double um[MARKS];

	for (int axis = 0; axis < 2; axis++) {
		double side = (double)(axis ? k->stock->width_um : k->stock->length_um);
		int n = marks_of(k, !axis, um);

		put_mark(k, !axis, 0);
		put_mark(k, !axis, side);
		for (int i = 0; i < n; i++)
			if (um[i] > 500 && um[i] < side - 500 && (!i || um[i] - um[i - 1] > 500))
				put_mark(k, !axis, um[i]);
	}
}

static void draw_sketch(const struct sketch *k)
{
	struct drawing *d = k->d;
	struct point far = on_sketch(
	        k, (struct point){ (double)k->stock->length_um, (double)k->stock->width_um });
	struct box slab = { k->corner.x, far.y, far.x, k->corner.y }, cell;

	page_box(d, &slab, PEN_DASHED);
	for (int i = 0; i < k->source->count; i++)
		draw_piece(k, &k->source->place[i]);
	put_marks(k);
	taken_add(&d->taken,
	        &(struct patch){ { (slab.x0 + slab.x1) / 2, (slab.y0 + slab.y1) / 2 },
	                (slab.x1 - slab.x0) / 2, (slab.y1 - slab.y0) / 2, 0 },
	        TAKEN_LINE);
	cell = (struct box){ slab.x0 - SIDE_MM, slab.y0 - 1, k->right, slab.y1 + 8 };
	for (int i = 0; i < k->source->count; i++) {
		const struct cut_place *at = &k->source->place[i];
		struct ring *rings = rings_of_place(k, at);

		if (rings)
			number_piece(k, rings, d->t->laid.pieces[at->piece].shape.count,
			        at->piece + 1, &cell);
	}
}

static bool is_box(const struct piece *p)
{
	const struct box *b = &p->box;

	return p->shape.count == 1 && (b->x1 - b->x0) * (b->y1 - b->y0) - p->area_um2 < 1e6;
}

/* Corners to mark on the slab, from its lower left corner. */
static const char *corner_words(const struct sketch *k, const struct cut_place *at)
{
	struct drawing *d = k->d;
	const struct piece *p = &d->t->laid.pieces[at->piece];
	const char *words = "";

	if (is_box(p))
		return "";
	for (size_t i = 0; i < p->shape.count; i++) {
		struct ring r = placed_ring(k, &p->shape.rings[i], at, false);

		words = page_print(d, "%s%s", words, i ? "; hole" : "; mark");
		for (size_t c = 0; c < r.n; c++)
			words = page_print(d, "%s%s %s/%s", words, c ? "," : "",
			        mm_words(d, r.p[c].x), mm_words(d, r.p[c].y));
	}
	return words;
}

/* A zone's own name may be long. */
static const char *short_name(struct drawing *d, const struct section *s)
{
	return s->kind == SECTION_ZONE ? page_print(d, "zone %zu", s->number + 1) : s->name;
}

static const char *piece_words(const struct sketch *k, const struct cut_place *at)
{
	struct drawing *d = k->d;
	const struct piece *p = &d->t->laid.pieces[at->piece];
	const struct section *s = section_of_piece(&d->t->laid, p);

	return page_print(d, "%zu: %s x %s%s, course %" PRId64 " slab %" PRId64 "%s%s%s%s%s",
	        at->piece + 1, mm_words(d, p->box.x1 - p->box.x0),
	        mm_words(d, p->box.y1 - p->box.y0), p->kind == PIECE_SLIVER ? " sliver" : "",
	        p->spot.course, p->spot.index, piece_part_words(p),
	        d->t->laid.section_count > 1 ? ", " : "",
	        d->t->laid.section_count > 1 ? short_name(d, s) : "",
	        at->turn == 180  ? ", turned half round"
	        : at->turn == 90 ? ", turned clockwise"
	        : at->turn       ? ", turned anticlockwise"
	                         : "",
	        corner_words(k, at));
}

struct cell {
	struct sketch sketch;
	size_t number;
	double wide, high; /* of the sketch, mm */
	double height; /* of all */
};

static struct text line_of_words(const char *words)
{
	return (struct text){ words, .size = SIZE_LEAST + 0.2, .room = CELL_MM - 3, .wraps = true };
}

static struct cell cell_of(struct drawing *d, size_t i)
{
	const struct cut_source *s = &d->t->cuts.sources[i];
	struct cell c = { .sketch = { d, s, &d->t->laid.stocks[s->stock], { 0, 0 }, 0, 0 },
		.number = i + 1 };
	double l = (double)c.sketch.stock->length_um, w = (double)c.sketch.stock->width_um;

	c.sketch.mm = fmin(SKETCH_WIDE_MM / l, SKETCH_HIGH_MM / w);
	c.wide = l * c.sketch.mm;
	c.high = w * c.sketch.mm;
	c.height = 5 + c.high + 8;
	for (int k = 0; k < s->count; k++) {
		struct text t = line_of_words(piece_words(&c.sketch, &s->place[k]));

		c.height += 2 * text_patch(d, &t).across + 0.3;
	}
	c.height += 3;
	return c;
}

static void draw_cell(struct cell *c, double x, double y)
{
	struct drawing *d = c->sketch.d;
	const struct stock_slab *stock = c->sketch.stock;
	struct text head = { .size = SIZE_NOTE, .bold = true, .room = CELL_MM - 3 };

	head.words = page_print(d, "slab %zu", c->number);
	if (d->t->laid.stock_count > 1)
		head.words = page_print(d, "slab %zu, %s%s%s x %s", c->number,
		        page_clean(d, stock->slab.name), *stock->slab.name ? ", " : "",
		        mm_words(d, (double)stock->length_um),
		        mm_words(d, (double)stock->width_um));
	page_text(d, &head, ALIGN_LEFT, x, y);
	c->sketch.corner = (struct point){ x + SIDE_MM, y + 5 + c->high };
	c->sketch.right = x + CELL_MM;
	draw_sketch(&c->sketch);
	y += 5 + c->high + 8;
	for (int k = 0; k < c->sketch.source->count; k++) {
		struct text t = line_of_words(piece_words(&c->sketch, &c->sketch.source->place[k]));

		y += page_text(d, &t, ALIGN_LEFT, x, y) + 0.3;
	}
}

/* What holds for all of them, over the first row. */
static double put_intro(struct drawing *d)
{
	const struct takeoff *t = d->t;
	char kerf[40];
	struct text words = { .size = SIZE_NOTE, .room = d->frame.x1 - d->frame.x0, .wraps = true };

	words.words = page_print(d,
	        "%zu slabs for %" PRId64
	        " pieces%s. Figures at a slab's sides, and corners to mark "
	        "(x/y), are mm from its lower left corner; sizes are as laid. The blade takes %s "
	        "mm. Slabs come in laying order. Cut wet, outdoors, with a mask that fits: the "
	        "dust "
	        "holds silica.",
	        t->cuts.slabs, t->laid.cut,
	        t->cuts.slabs <= t->cuts.bound ? ", the least possible" : "",
	        mm_print(kerf, sizeof kerf, t->plan.laying.kerf_um));
	return page_text(d, &words, ALIGN_LEFT, d->frame.x0, d->frame.y0) + 3;
}

void draw_cuts(struct drawing *d, const char *title)
{
	struct page_head head = { title, "", NULL, "sketches not to scale" };
	int across;
	double y;

	page_begin(d, &head);
	across = (int)((d->frame.x1 - d->frame.x0 + 4) / (CELL_MM + 4));
	y = d->frame.y0 + put_intro(d);
	for (size_t i = 0; i < d->t->cuts.slabs && d->status == STATUS_OK;) {
		struct cell cells[8];
		double height = 0;
		int n = 0;

		for (; n < across && n < 8 && i + (size_t)n < d->t->cuts.slabs; n++) {
			cells[n] = cell_of(d, i + (size_t)n);
			height = fmax(height, cells[n].height);
		}
		if (y + height > d->frame.y1 && y > d->frame.y0 + 0.1) {
			head.part = "continued";
			page_begin(d, &head);
			y = d->frame.y0;
			continue;
		}
		for (int k = 0; k < n; k++)
			draw_cell(&cells[k],
			        d->frame.x0 + k * (d->frame.x1 - d->frame.x0 + 4) / across, y);
		y += height;
		i += (size_t)n;
	}
	if (!d->t->cuts.slabs) {
		struct text none = { "No slab is cut.", .size = SIZE_BODY };

		page_text(d, &none, ALIGN_LEFT, d->frame.x0, y);
	}
}
