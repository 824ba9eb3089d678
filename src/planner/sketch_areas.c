/* sketch_areas.c - which part of the paving drains to which end, by letters.
 *
 * The pane lists the ends with the same letters. Where what reaches an edge parts along it and runs
 * to several ends, a star stands. */
#include "sketch.h"

#include <math.h>

char end_letter(size_t end)
{
	static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";

	return end < sizeof letters - 1 ? letters[end] : '#';
}

static char letter_of(const struct surface_result *r, enum end_kind kind, size_t number)
{
	for (size_t i = 0; i < r->end_count; i++)
		if (r->ends[i].kind == kind && r->ends[i].number == number)
			return end_letter(i);
	return '?';
}

/* Where the water that first reaches an edge ends up. */
static char letter_of_edge(const struct surface_result *r, const struct catchment *c)
{
	const struct water_end *to = NULL;

	if (c->channel)
		return letter_of(r, END_CHANNEL, (size_t)c->channel - 1);
	for (size_t i = 0; i < r->held_count; i++) {
		if (r->held[i].edge != c->edge || r->held[i].end.area_m2 <= 0)
			continue;
		if (to && (to->kind != r->held[i].end.kind || to->number != r->held[i].end.number))
			return '*';
		to = &r->held[i].end;
	}
	return to ? letter_of(r, to->kind, to->number) : letter_of(r, END_EDGE, c->edge);
}

/* The piece's extent at a height, um; false where it does not reach there. */
static bool extent_at(const struct water_piece *piece, double y, double *from, double *to)
{
	*from = INFINITY;
	*to = -INFINITY;
	for (int i = 0; i < 4; i++) {
		struct point a = piece->p[i], b = piece->p[(i + 1) % 4];
		double x;

		if ((a.y > y) == (b.y > y))
			continue;
		x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
		*from = fmin(*from, x);
		*to = fmax(*to, x);
	}
	return *from < *to;
}

/* In every other column, so that the letters do not run into words. */
static void fill(const struct sketch *s, const struct water_piece *piece, char letter)
{
	static const enum style styles[] = { STYLE_PLAIN, STYLE_WATER, STYLE_QUIET, STYLE_NUMBER };
	enum style style = letter == '*' ? STYLE_WARN : styles[(unsigned char)letter % 4];
	double low = fmin(fmin(piece->p[0].y, piece->p[1].y), fmin(piece->p[2].y, piece->p[3].y));
	double high = fmax(fmax(piece->p[0].y, piece->p[1].y), fmax(piece->p[2].y, piece->p[3].y));
	int top = sketch_row(s, high), bottom = sketch_row(s, low);

	for (int r = top > 0 ? top : 0; r <= bottom && r < s->area.rows; r++) {
		double from, to;

		if (!extent_at(piece, sketch_y(s, r), &from, &to))
			continue;
		for (int c = sketch_col(s, from); c < s->area.cols && sketch_x(s, c) < to; c++)
			if (c >= 0 && c % 2 == 0 && sketch_x(s, c) >= from &&
			        !s->taken[r * s->area.cols + c])
				area_put(&s->area, r, c, (wchar_t)letter, style);
	}
}

static void fill_all(
        const struct sketch *s, const struct water_piece *pieces, size_t count, char letter)
{
	for (size_t i = 0; i < count; i++)
		fill(s, &pieces[i], letter);
}

void areas_draw(const struct sketch *s)
{
	const struct surface_result *r = &s->app->t.surface;

	for (size_t i = 0; i < r->catchment_count; i++)
		fill_all(s, r->catchments[i].pieces, r->catchments[i].piece_count,
		        letter_of_edge(r, &r->catchments[i]));
	for (size_t i = 0; i < r->channel_count; i++)
		fill_all(s, r->channels[i].first.pieces, r->channels[i].first.piece_count,
		        letter_of(r, END_CHANNEL, i));
	for (size_t i = 0; i < r->gully_count; i++)
		fill_all(s, r->gullies[i].first.pieces, r->gullies[i].first.piece_count,
		        letter_of(r, END_GULLY, i));
	for (size_t i = 0; i < r->pond_count; i++)
		fill_all(s, r->ponds[i].first.pieces, r->ponds[i].first.piece_count,
		        letter_of(r, END_POND, i));
}
