/* hand_pieces.c - see hand_pieces.h. */
#include "hand_pieces.h"

#include "chance.h"

#include <check.h>
#include <math.h>

struct cut_stock hand_stock(double length, double width, double kerf)
{
	return (struct cut_stock){ .length_um = llround(length * 1000),
		.width_um = llround(width * 1000),
		.kerf_um = llround(kerf * 1000) };
}

struct piece hand_piece_of(const struct cut_stock *stock, bool standing, struct ring *r)
{
	struct piece piece = { .kind = PIECE_CUT, .standing = standing, .shape = { r, 1 } };
	double l = (double)(standing ? stock->width_um : stock->length_um),
	       w = (double)(standing ? stock->length_um : stock->width_um);

	for (size_t i = 0; i < r->n; i++) {
		struct point a = r->p[i], b = r->p[(i + 1) % r->n];

		if (hypot(b.x - a.x, b.y - a.y) < 1)
			continue;
		piece.sides |= a.x == 0 && b.x == 0 ? SIDE_LEFT : 0;
		piece.sides |= a.x == l && b.x == l ? SIDE_RIGHT : 0;
		piece.sides |= a.y == 0 && b.y == 0 ? SIDE_BOTTOM : 0;
		piece.sides |= a.y == w && b.y == w ? SIDE_TOP : 0;
	}
	piece.box = points_box(r->p, r->n);
	piece.area_um2 = ring_polygon_area(r->p, r->n);
	return piece;
}

struct piece hand_piece(
        struct arena *mem, const struct cut_stock *stock, size_t n, const double *mm)
{
	struct ring *r = arena_alloc(mem, 1, sizeof *r);

	ck_assert_ptr_nonnull(r);
	*r = (struct ring){ .p = arena_alloc(mem, n, sizeof *r->p), .n = n };
	ck_assert_ptr_nonnull(r->p);
	for (size_t i = 0; i < n; i++)
		r->p[i] = (struct point){ mm[2 * i] * 1000, mm[2 * i + 1] * 1000 };
	return hand_piece_of(stock, false, r);
}

struct piece hand_rectangle(
        struct arena *mem, const struct cut_stock *stock, double x, double y, double l, double w)
{
	return hand_piece(mem, stock, 4, (double[]){ x, y, x + l, y, x + l, y + w, x, y + w });
}

struct cutplan hand_plan(
        struct arena *mem, const struct piece *pieces, size_t count, size_t stock_count)
{
	struct cutplan plan = { .reason = "nothing",
		.sources = arena_alloc(mem, count, sizeof *plan.sources),
		.of_stock = arena_alloc(mem, stock_count, sizeof *plan.of_stock) };

	struct cut_place *places = arena_alloc(mem, count, sizeof *places);

	ck_assert(plan.sources && plan.of_stock && places);
	for (size_t stock = 0; stock < stock_count; stock++) {
		plan.of_stock[stock].reason = "nothing";
		for (size_t i = 0; i < count; i++) {
			if (pieces[i].stock != stock)
				continue;
			places[i] = (struct cut_place){ .piece = i };
			plan.sources[plan.slabs++] = (struct cut_source){
				.place = &places[i], .count = 1, .stock = stock
			};
			plan.of_stock[stock].slabs++;
		}
	}
	return plan;
}

void hand_hard_pieces(struct arena *mem, const struct cut_stock *stock, size_t shapes,
        struct piece *pieces, size_t count)
{
	struct chance c = chance_new(5);
	int64_t l = stock->length_um / UM_PER_MM, w = stock->width_um / UM_PER_MM;

	for (size_t i = 0; i < count; i++) {
		double a = (double)chance_int(&c, l / 5, l * 2 / 5),
		       b = (double)chance_int(&c, w / 5, w * 2 / 5);

		if (i >= shapes)
			pieces[i] = pieces[i - shapes];
		else
			pieces[i] =
			        hand_rectangle(mem, stock, chance_int(&c, 0, 1) ? 0 : 1, 0, a, b);
	}
}
