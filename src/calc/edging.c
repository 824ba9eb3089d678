/* edging.c - what runs along the edges, kind by kind.
 *
 * An edge takes whole units and, at its end, a cut piece or two. The cut pieces of a kind come from
 * further units, as few as the packing finds. */
#include "slabwright/edging.h"

enum { FIRST_WORK = 500000 };

static const double LEAST_TURN_RAD = 0.01; /* less is no corner */

/* One kind of edge: its line, and the packing of its cut pieces. */
struct line_search {
	struct edging_line line;
	struct pack *pack; /* NULL where nothing is bought */
};

struct edging_search {
	struct arena *mem;
	struct line_search lines[EDGE_KINDS];
	size_t count;
};

/* --- an edge --- */

static void cut_piece(struct edging_line *line, size_t edge, int64_t length_um)
{
	line->pieces[line->cut++] = (struct edging_piece){ edge, length_um };
	line->too_short += length_um < line->least_um;
}

static void lay_units(
        const struct plan_edging *e, size_t edge, int64_t run_um, struct edging_line *line)
{
	struct edging_split s = edging_split(run_um, e->unit_um, e->joint_um, line->least_um);

	line->whole += s.whole;
	line->shared += s.shared;
	for (int i = 0; i < s.cut; i++)
		cut_piece(line, edge, s.piece_um[i]);
	line->no_room += run_um < 0;
}

/* The corner before the edge, where both its edges are of the kind. */
static void count_corner(const struct plan *plan, size_t ring, size_t at, struct edging_line *line)
{
	const struct plan_ring *r = &plan->rings[ring];
	double turn = edging_turn_rad(r, at, ring > 0);

	if (!edging_meets_own(r, at))
		return;
	line->outer_corners += turn > LEAST_TURN_RAD;
	line->inner_corners += turn < -LEAST_TURN_RAD;
	line->corner_pieces +=
	        plan->edging[line->kind].unit_um && edging_takes_corner(plan, ring, at);
}

static void lay_kind(const struct plan *plan, struct edging_line *line)
{
	const struct plan_edging *e = &plan->edging[line->kind];

	for (size_t i = 0, edge = 0; i < plan->ring_count; i++) {
		const struct plan_ring *r = &plan->rings[i];

		for (size_t j = 0; j < r->count; j++, edge++) {
			if (!r->closed || r->nodes[j].kind != line->kind)
				continue;
			line->edges++;
			line->length_m += edge_length_um(r, j) * 1e-6;
			count_corner(plan, i, j, line);
			if (e->unit_um)
				lay_units(e, edge, edging_run_um(plan, i, j), line);
		}
	}
}

/* --- the search --- */

static enum status begin_kind(struct edging_search *s, const struct plan *plan, int64_t kerf_um,
        enum edge_kind kind, struct error *err)
{
	const struct plan_edging *e = &plan->edging[kind];
	struct line_search *l = &s->lines[s->count];
	struct pack_piece *pieces;

	l->line = (struct edging_line){
		.kind = kind, .unit_name = e->name, .unit_um = e->unit_um, .reason = ""
	};
	l->line.least_um = e->least_um ? e->least_um : e->unit_um / 3;
	l->line.pieces = arena_alloc(s->mem, 2 * plan_edge_count(plan), sizeof *l->line.pieces);
	if (!l->line.pieces)
		return error_memory(err);
	lay_kind(plan, &l->line);
	s->count += l->line.edges > 0;
	if (!l->line.edges || !e->unit_um)
		return STATUS_OK;
	pieces = arena_alloc(s->mem, (size_t)l->line.cut, sizeof *pieces);
	if (!pieces)
		return error_memory(err);
	for (int64_t i = 0; i < l->line.cut; i++)
		pieces[i] = (struct pack_piece){ l->line.pieces[i].length_um, 1 };
	return pack_begin(s->mem, pieces, (size_t)l->line.cut, e->unit_um, kerf_um, &l->pack, err);
}

enum status edging_begin(struct arena *mem, const struct plan *plan, int64_t kerf_um,
        struct edging_search **out, struct error *err)
{
	struct edging_search *s = *out = arena_alloc(mem, 1, sizeof *s);
	enum status st = STATUS_OK;

	if (!s)
		return error_memory(err);
	s->mem = mem;
	for (int kind = 0; kind < EDGE_KINDS && st == STATUS_OK; kind++)
		st = begin_kind(s, plan, kerf_um, (enum edge_kind)kind, err);
	return st;
}

static bool is_open(const struct line_search *l)
{
	return l->pack && !pack_done(l->pack);
}

enum status edging_step(struct edging_search *s, int64_t work, struct error *err)
{
	enum status st = STATUS_OK;
	int64_t open = 0;

	for (size_t i = 0; i < s->count; i++)
		open += is_open(&s->lines[i]);
	for (size_t i = 0; i < s->count && st == STATUS_OK; i++)
		if (is_open(&s->lines[i]))
			st = pack_step(s->lines[i].pack, work / open, err);
	return st;
}

bool edging_done(const struct edging_search *s)
{
	for (size_t i = 0; i < s->count; i++)
		if (is_open(&s->lines[i]))
			return false;
	return true;
}

enum status edging_best(struct edging_search *s, struct edging_result *out, struct error *err)
{
	out->count = 0;
	out->lines = arena_alloc(s->mem, EDGE_KINDS, sizeof *out->lines);
	if (!out->lines)
		return error_memory(err);
	for (size_t i = 0; i < s->count; i++) {
		struct edging_line *line = &out->lines[out->count++];
		enum status st;

		*line = s->lines[i].line;
		if (!s->lines[i].pack)
			continue;
		st = pack_best(s->lines[i].pack, &line->cuts, err);
		if (st != STATUS_OK)
			return st;
		line->units = line->whole + (int64_t)line->cuts.unit_count;
		line->bound = line->whole + (int64_t)line->cuts.bound;
		line->reason = line->cuts.reason;
	}
	return STATUS_OK;
}

enum status edging_work_out(struct arena *mem, const struct plan *plan, int64_t kerf_um,
        struct edging_result *out, struct error *err)
{
	struct edging_search *s;
	enum status st = edging_begin(mem, plan, kerf_um, &s, err);

	if (st == STATUS_OK)
		st = edging_step(s, FIRST_WORK, err);
	return st == STATUS_OK ? edging_best(s, out, err) : st;
}
