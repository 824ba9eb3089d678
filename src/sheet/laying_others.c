/* laying_others.c - pieces that have no number on the laying plan, told course by course: beside
 * the drawing where they are few, else on pages behind it. */
#include "laying.h"
#include "table.h"

#include <inttypes.h>

static const char *course_words(
        struct drawing *d, const bool *labelled, size_t *at, const struct piece *first)
{
	const struct paving *p = &d->t->laid;
	const char *between = "",
	           *words = page_print(d, "%s, course %" PRId64 ":",
	                   page_clean(d, p->sections[first->section].name), first->spot.course);

	for (; *at < p->piece_count; ++*at) {
		const struct piece *q = &p->pieces[*at];

		if (q->section != first->section || q->spot.course != first->spot.course)
			break;
		if (!piece_is_cut(q) || labelled[*at])
			continue;
		words = page_print(d, "%s%s %zu at slab %" PRId64 "%s", words, between, *at + 1,
		        q->spot.index, piece_part_words(q));
		between = ";";
	}
	return words;
}

/* The lines for all of them, course by course; how many there are. */
static size_t other_lines(struct drawing *d, const bool *labelled, const char **lines, size_t room)
{
	const struct paving *p = &d->t->laid;
	size_t count = 0;

	for (size_t i = 0; i < p->piece_count && count < room;)
		if (piece_is_cut(&p->pieces[i]) && !labelled[i])
			lines[count++] = course_words(d, labelled, &i, &p->pieces[i]);
		else
			i++;
	return count;
}

#define OTHERS "Pieces too small to number on the drawing"

/* A few lines fit in a corner of the drawing that is free. */
static bool others_beside(struct laying_sheet *l, const char *const *lines, size_t count)
{
	static const double ROOM_MM = 62;
	struct text text = { OTHERS ":", .size = SIZE_NOTE, .room = ROOM_MM, .wraps = true };

	for (size_t i = 0; i < count; i++)
		text.words = page_print(
		        l->d, "%s %s%s", text.words, lines[i], i + 1 < count ? ";" : ".");
	for (int corner = 0; corner < 4; corner++) {
		struct patch p = text_patch(l->d, &text), wide;
		struct point at;

		p.at.x = corner % 2 ? l->window.x0 + p.along : l->window.x1 - p.along;
		p.at.y = corner / 2 ? l->window.y0 + p.across : l->window.y1 - p.across;
		wide = p, wide.along += 1, wide.across += 1;
		at = view_back(&l->view, p.at);
		if (region_contains(&l->d->t->region, at) ||
		        !taken_free(&l->d->taken, &wide, TAKEN_ANY))
			continue;
		page_text_at(l->d, &text, &p);
		return true;
	}
	return false;
}

/* On pages of their own, in columns. */
static void others_behind(struct drawing *d, const char *title, const bool *labelled, size_t room)
{
	static const double WIDE_MM = 85, GAP_MM = 6;
	struct page_head head = { title, "pieces by course", NULL, NULL };
	const char **lines;
	struct flow flow;
	struct box column;
	size_t count;

	page_begin(d, &head);
	column = d->frame;
	column.x1 = column.x0 + WIDE_MM;
	flow = flow_begin(d, &head, &column);
	for (; column.x1 + WIDE_MM + GAP_MM <= d->frame.x1 && flow.count < FLOW_COLUMNS;) {
		column.x0 += WIDE_MM + GAP_MM;
		column.x1 += WIDE_MM + GAP_MM;
		flow.columns[flow.count++] = column;
	}
	flow_heading(&flow, OTHERS, 10);
	lines = arena_alloc(&d->mem, room, sizeof *lines);
	if (!lines) {
		page_fail_memory(d);
		return;
	}
	count = other_lines(d, labelled, lines, room);
	for (size_t i = 0; i < count; i++)
		lines[i] = arena_text(&d->mem, lines[i]);
	for (size_t i = 0; i < count && d->status == STATUS_OK; i++)
		flow_paragraph(&flow, lines[i] ? lines[i] : "", SIZE_NOTE);
}

void laying_list_others(struct laying_sheet *l, const char *title, bool one_page)
{
	enum { FEW = 8 };

	const char *few[FEW + 1];
	size_t count = other_lines(l->d, l->labelled, few, FEW + 1);

	if (!count || (one_page && count <= FEW && others_beside(l, few, count)))
		return;
	others_behind(l->d, title, l->labelled, l->d->t->laid.piece_count + 1);
}
