/* rough.c - see rough.h. Each piece is a job of its own, so that its place can be told. */
#include "rough.h"

#include "slabwright/guillotine.h"

#include <math.h>

/* How a piece lies on the slab when the packing does not turn it: one of a standing position is
 * turned to begin with. */
static int turn_of_piece(const struct piece *p, bool turned)
{
	return p->standing ? (turned ? 0 : 270) : turned ? 90 : 0;
}

/* Up to a whole um, but for the rounding of a turn. */
static int64_t whole_um(double um)
{
	return (int64_t)ceil(um - 1e-3);
}

enum status rough_begin(
        struct arena *mem, const struct batch *batch, struct guillotine **out, struct error *err)
{
	struct guillotine_piece *pieces = arena_alloc(mem, batch->count, sizeof *pieces);
	struct guillotine_stock stock = { (int64_t)batch->stock.length, (int64_t)batch->stock.width,
		(int64_t)batch->stock.kerf };

	if (!pieces)
		return error_memory(err);
	for (size_t i = 0; i < batch->count; i++) {
		const struct piece *p = &batch->pieces[batch->piece[i]];
		struct cut_place place = { .turn = turn_of_piece(p, false) };
		struct box b = place_box(&p->box, &place);

		pieces[i] = (struct guillotine_piece){ whole_um(b.x1 - b.x0), whole_um(b.y1 - b.y0),
			1, batch->stock.square && !batch->stock.directional };
	}
	return guillotine_begin(mem, &stock, pieces, batch->count, 1, out, err);
}

void sort_sources(struct cut_source *sources, size_t count)
{
	for (size_t i = 0; i < count; i++)
		for (int k = 1; k < sources[i].count; k++)
			for (int j = k; j > 0; j--) {
				struct cut_place *p = &sources[i].place[j - 1], swap = p[0];

				if (p[0].piece < p[1].piece)
					break;
				p[0] = p[1];
				p[1] = swap;
			}
	for (size_t i = 1; i < count; i++)
		for (size_t j = i;
		        j > 0 && sources[j].place[0].piece < sources[j - 1].place[0].piece; j--) {
			struct cut_source swap = sources[j];

			sources[j] = sources[j - 1];
			sources[j - 1] = swap;
		}
}

/* The pieces among a sheet's parts, which follow each other from `from` up to `to`. */
static enum status take_sheet(const struct batch *batch, const struct guillotine_plan *plan,
        size_t from, size_t to, struct arena *mem, struct cut_source *out, struct error *err)
{
	size_t count = 0;

	for (size_t i = from; i < to; i++)
		count += plan->parts[i].piece != GUILLOTINE_NONE;
	out->place = arena_alloc(mem, count, sizeof *out->place);
	if (!out->place)
		return error_memory(err);
	for (size_t i = from; i < to; i++) {
		const struct guillotine_part *part = &plan->parts[i];
		const struct piece *p;
		struct cut_place place = { 0 };
		struct box b;

		if (part->piece == GUILLOTINE_NONE)
			continue;
		p = &batch->pieces[batch->piece[part->piece]];
		place = (struct cut_place){ batch->piece[part->piece],
			turn_of_piece(p, part->turned), { 0, 0 } };
		b = place_box(&p->box, &place);
		place.at = (struct point){ (double)part->x_um - b.x0, (double)part->y_um - b.y0 };
		out->place[out->count++] = place;
	}
	return STATUS_OK;
}

enum status rough_sources(const struct guillotine *job, const struct batch *batch, size_t stock,
        struct arena *mem, struct cut_source **sources, size_t *count, struct error *err)
{
	struct guillotine_plan plan;
	enum status st = guillotine_best(job, mem, &plan, err);

	*count = 0;
	if (st != STATUS_OK)
		return st;
	*sources = arena_alloc(mem, plan.sheet_count, sizeof **sources);
	if (!*sources)
		return error_memory(err);
	for (size_t i = 0; i < plan.sheet_count && st == STATUS_OK; i++) {
		size_t to = i + 1 < plan.sheet_count ? plan.sheets[i + 1] : plan.part_count;

		(*sources)[i].stock = stock;
		st = take_sheet(batch, &plan, plan.sheets[i], to, mem, &(*sources)[i], err);
	}
	*count = plan.sheet_count;
	if (st == STATUS_OK)
		sort_sources(*sources, *count);
	return st;
}
