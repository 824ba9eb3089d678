/* saw.c - the order of the saw's cuts of a slab, in all three forms. Distances are whole mm from
 * the slab's own edges, along x from the left and along y from the bottom unless named. */
#include "csv_row.h"
#include "slabwright/json.h"
#include "slabwright/sawing.h"

#include <math.h>

const char SAW_WORDS[] =
        "saw in this order, measured from the slab's own edges; the blade runs just "
        "outside the line, in the waste or on the side of what is named last";

/* What a form knows of a slab while it goes over its cuts. */
struct slab_saw {
	const struct takeoff *t;
	const struct cut_source *source;
	struct cut_stock stock;
	struct saw_order order;
};

static enum status saw_of(
        struct arena *mem, const struct takeoff *t, size_t source, struct slab_saw *out)
{
	*out = (struct slab_saw){ .t = t, .source = &t->cuts.sources[source] };
	out->stock = paving_stock(&t->laid, &t->plan.laying, out->source->stock);
	return saw_order_make(mem, t->laid.pieces, &out->stock, out->source, &out->order, NULL);
}

static size_t piece_number(const struct slab_saw *s, int place)
{
	return s->source->place[place].piece + 1;
}

/* --- text --- */

/* "piece 3", "pieces 3, 4". */
static void put_pieces(FILE *to, const struct slab_saw *s, const int *places, int count)
{
	fputs(count == 1 ? "piece" : "pieces", to);
	for (int i = 0; i < count; i++)
		fprintf(to, "%s %zu", i ? "," : "", piece_number(s, places[i]));
}

/* A point on the slab's edge. */
static void put_on_edge(FILE *to, const struct slab_saw *s, struct point p)
{
	long x = whole_mm(p.x), y = whole_mm(p.y);

	if (y == 0 || y == whole_mm((double)s->stock.width_um))
		fprintf(to, "%ld mm along the %s edge", x, y ? "top" : "bottom");
	else
		fprintf(to, "%ld mm up the %s edge", y, x ? "right" : "left");
}

/* A straight cut is measured from the edge on the hand where the piece is. */
static void put_across(FILE *to, const struct slab_saw *s, const struct saw_cut *c)
{
	struct point a = c->line[0], b = c->line[1];
	double length = (double)s->stock.length_um, width = (double)s->stock.width_um;

	fputs("right across, ", to);
	if (whole_mm(a.x) == whole_mm(b.x) && b.y > a.y)
		fprintf(to, "%ld mm from the left edge", whole_mm(a.x));
	else if (whole_mm(a.x) == whole_mm(b.x))
		fprintf(to, "%ld mm from the right edge", whole_mm(length - a.x));
	else if (whole_mm(a.y) == whole_mm(b.y) && b.x > a.x)
		fprintf(to, "%ld mm from the top edge", whole_mm(width - a.y));
	else if (whole_mm(a.y) == whole_mm(b.y))
		fprintf(to, "%ld mm from the bottom edge", whole_mm(a.y));
	else {
		fputs("from ", to);
		put_on_edge(to, s, a);
		fputs(" to ", to);
		put_on_edge(to, s, b);
	}
}

static void put_corners(FILE *to, const struct saw_cut *c)
{
	for (size_t i = 0; i < c->n; i++)
		fprintf(to, "%s x %ld y %ld", i ? "," : "", whole_mm(c->line[i].x),
		        whole_mm(c->line[i].y));
}

static void put_cut(FILE *to, const struct slab_saw *s, const struct saw_cut *c)
{
	switch (c->kind) {
	case SAW_ACROSS:
		put_across(to, s, c);
		break;
	case SAW_NOTCH:
		fprintf(to, "from the edge, %zu cut%s:", c->n - 1, c->n > 2 ? "s that meet" : "");
		put_corners(to, c);
		break;
	case SAW_CURVE:
		fputs("along the curve:", to);
		put_corners(to, c);
		break;
	case SAW_OPENING:
		fputs("the opening, all round:", to);
		put_corners(to, c);
		break;
	}
	fputs(c->right ? "; " : "; waste off ", to);
	put_pieces(to, s, c->places, c->left);
	if (c->right) {
		fputs(" from ", to);
		put_pieces(to, s, c->places + c->left, c->right);
	}
	if (c->ground)
		fputs("; what the blade does not reach is ground out", to);
}

void text_saw(FILE *to, const struct takeoff *t, size_t source, const char *before)
{
	struct arena mem = { 0 };
	struct slab_saw s;

	if (saw_of(&mem, t, source, &s) != STATUS_OK)
		fprintf(to, "%ssaw: no memory to tell the order\n", before);
	else if (!s.order.sound)
		fprintf(to,
		        "%ssaw: no cuts from edge to edge part these pieces; cut each along "
		        "its marks\n",
		        before);
	for (size_t i = 0; i < s.order.count; i++) {
		fprintf(to, "%ssaw %zu: ", before, i + 1);
		put_cut(to, &s, &s.order.cuts[i]);
		fputc('\n', to);
	}
	arena_free(&mem);
}

/* --- CSV --- */

/* One line of a MULTILINESTRING for each cut, the blade to its right. */
void csv_saw(struct row *r, const struct takeoff *t, size_t source)
{
	struct arena mem = { 0 };
	struct slab_saw s;
	char x[40], y[40];

	if (saw_of(&mem, t, source, &s) != STATUS_OK || !s.order.count) {
		row_empty(r);
		arena_free(&mem);
		return;
	}
	row_separate(r);
	fputs("\"MULTILINESTRING (", r->to);
	for (size_t i = 0; i < s.order.count; i++) {
		const struct saw_cut *c = &s.order.cuts[i];
		size_t n = c->n + (c->kind == SAW_OPENING);

		for (size_t k = 0; k < n; k++)
			fprintf(r->to, "%s%s %s",
			        k   ? ", "
			        : i ? ", ("
			            : "(",
			        mm_print(x, sizeof x, llround(c->line[k % c->n].x)),
			        mm_print(y, sizeof y, llround(c->line[k % c->n].y)));
		fputc(')', r->to);
	}
	fputs(")\"", r->to);
	arena_free(&mem);
}

/* --- JSON --- */

static void json_pieces(
        struct json *j, const char *key, const struct slab_saw *s, const int *places, int count)
{
	json_array_tight(j, key);
	for (int i = 0; i < count; i++)
		json_int(j, NULL, (int64_t)piece_number(s, places[i]));
	json_end(j);
}

void json_saw(struct json *j, const struct takeoff *t, size_t source)
{
	static const char *const kinds[] = { "across", "notch", "curve", "opening" };
	struct arena mem = { 0 };
	struct slab_saw s;

	if (saw_of(&mem, t, source, &s) != STATUS_OK)
		j->failed = true;
	json_array(j, "saw");
	for (size_t i = 0; i < s.order.count; i++) {
		const struct saw_cut *c = &s.order.cuts[i];

		json_object_tight(j, NULL);
		json_text(j, "kind", kinds[c->kind]);
		json_pieces(j, "pieces", &s, c->places, c->left);
		json_pieces(j, "from", &s, c->places + c->left, c->right);
		json_bool(j, "ground", c->ground);
		json_array_tight(j, "line");
		for (size_t k = 0; k < c->n; k++)
			point_mm(j, NULL, c->line[k].x, c->line[k].y);
		json_end(j);
		json_end(j);
	}
	json_end(j);
	arena_free(&mem);
}
