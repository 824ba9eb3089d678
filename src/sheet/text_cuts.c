/* text_cuts.c - the cut plan for people: slab by slab, and what each leaves. */
#include "form.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>

long whole_mm(double um)
{
	return lround(um / 1000);
}

/* Corners to mark on a piece that is no rectangle, and of its holes, from its own lower left. */
void text_corners(FILE *to, const struct piece *p)
{
	const struct box *b = &p->box;

	if (p->shape.count == 1 && (b->x1 - b->x0) * (b->y1 - b->y0) - p->area_um2 < 1e6)
		return;
	for (size_t k = 0; k < p->shape.count; k++) {
		const struct ring *r = &p->shape.rings[k];

		fputs(k ? "; hole, corners:" : "; corners in mm:", to);
		for (size_t i = 0; i < r->n; i++)
			fprintf(to, "%s %ld %ld", i ? "," : "", whole_mm(r->p[i].x - b->x0),
			        whole_mm(r->p[i].y - b->y0));
	}
}

static void put_place(
        FILE *to, const struct takeoff *t, const struct piece *p, const struct cut_place *place)
{
	struct box at = place_box(&p->box, place);

	fprintf(to, "  piece %zu: %s, %ld x %ld mm, for course %" PRId64 " slab %" PRId64 "%s",
	        place->piece + 1, piece_kind_name(p->kind), whole_mm(p->box.x1 - p->box.x0),
	        whole_mm(p->box.y1 - p->box.y0), p->spot.course, p->spot.index,
	        piece_part_words(p));
	if (t->laid.section_count > 1) {
		fputs(", ", to);
		sheet_put_text(to, section_of_piece(&t->laid, p)->name);
	}
	fprintf(to, "; cut from x %ld to %ld, y %ld to %ld of the slab", whole_mm(at.x0),
	        whole_mm(at.x1), whole_mm(at.y0), whole_mm(at.y1));
	if (place->turn)
		fprintf(to, ", then turned %d degrees %s", place->turn == 270 ? 90 : place->turn,
		        place->turn == 270 ? "anticlockwise" : "clockwise");
	text_corners(to, p);
	fputc('\n', to);
}

/* ", 597 x 297 mm" where there are several slabs. */
static const char *size_words(const struct takeoff *t, size_t stock, char *buf, size_t room)
{
	const struct stock_slab *k = &t->laid.stocks[stock];
	char l[40], w[40];

	if (t->laid.stock_count == 1)
		return "";
	snprintf(buf, room, ", %s x %s mm", mm_print(l, sizeof l, k->length_um),
	        mm_print(w, sizeof w, k->width_um));
	return buf;
}

static const double LEAST_KEPT_UM = 100000;

/* A rectangle that a cut slab leaves and that may serve for a repair: both sides 100 mm or more. */
static bool worth_keeping(const struct box *b)
{
	return b->x1 - b->x0 >= LEAST_KEPT_UM && b->y1 - b->y0 >= LEAST_KEPT_UM;
}

static void put_left(FILE *to, const struct box *b)
{
	if (worth_keeping(b))
		fprintf(to, "  leaves %ld x %ld mm, from x %ld to %ld, y %ld to %ld\n",
		        whole_mm(b->x1 - b->x0), whole_mm(b->y1 - b->y0), whole_mm(b->x0),
		        whole_mm(b->x1), whole_mm(b->y0), whole_mm(b->y1));
}

struct left {
	long length, width; /* mm, the longer side first */
};

static int largest_first(const void *a, const void *b)
{
	const struct left *x = a, *y = b;

	if (x->length != y->length)
		return x->length > y->length ? -1 : 1;
	return x->width > y->width ? -1 : x->width < y->width;
}

static struct box left_of(const struct takeoff *t, size_t source)
{
	const struct cut_source *s = &t->cuts.sources[source];
	struct cut_stock stock = paving_stock(&t->laid, &t->plan.laying, s->stock);

	return cut_leftover(t->laid.pieces, &stock, s);
}

/* What the cut slabs leave, sizes together. */
static void put_all_left(FILE *to, const struct takeoff *t)
{
	struct left *left = calloc(t->cuts.slabs + 1, sizeof *left);
	size_t count = 0;

	for (size_t i = 0; left && i < t->cuts.slabs; i++) {
		struct box b = left_of(t, i);
		long l = whole_mm(b.x1 - b.x0), w = whole_mm(b.y1 - b.y0);

		if (worth_keeping(&b))
			left[count++] = (struct left){ l > w ? l : w, l > w ? w : l };
	}
	if (count)
		qsort(left, count, sizeof *left, largest_first);
	if (count)
		fputs("\nLeft of the cut slabs, to keep for repairs\n", to);
	for (size_t i = 0, end = 0; i < count; i = end) {
		while (end < count && largest_first(&left[i], &left[end]) == 0)
			end++;
		fprintf(to, "  %zu of %ld x %ld mm\n", end - i, left[i].length, left[i].width);
	}
	free(left);
}

void text_cuts(FILE *to, const struct takeoff *t)
{
	char size[80];
	struct box left;

	text_title(to, t, "Cut plan");
	text_proof(to, &t->cuts);
	text_line(to, "edges", "%s",
	        t->plan.laying.edges == RULE_FINISHED
	                ? "sides that face a joint lie on the slab's own finished edges"
	                : "cut sides may face a joint");
	text_line_mm(to, "kerf", (double)t->plan.laying.kerf_um);
	text_line(to, "order of cuts", "%s", SAW_WORDS);
	for (size_t i = 0; i < t->cuts.slabs; i++) {
		const struct cut_source *s = &t->cuts.sources[i];

		fprintf(to, "\nSlab %zu%s\n", i + 1, size_words(t, s->stock, size, sizeof size));
		for (int k = 0; k < s->count; k++)
			put_place(to, t, &t->laid.pieces[s->place[k].piece], &s->place[k]);
		text_saw(to, t, i, "  ");
		left = left_of(t, i);
		put_left(to, &left);
	}
	put_all_left(to, t);
	fputs("\nCautions\n", to);
	sheet_cautions(t, text_caution, to);
}
