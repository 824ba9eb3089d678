/* pane_border.c - what the pane says of border courses at Edging. */
#include "actions.h"
#include "pane.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>

struct tally {
	int64_t whole, cut, sliver, made_up;
};

static void add_counts(struct tally *sum, const struct section *s)
{
	sum->whole += s->laid.whole;
	sum->cut += s->laid.cut;
	sum->sliver += s->laid.sliver;
	sum->made_up += s->laid.made_up;
}

static void tally_lines(struct pane *p, const struct tally *sum)
{
	pane_pair(p, "whole", "%" PRId64, sum->whole);
	pane_pair(p, "cut", "%" PRId64, sum->cut);
	pane_pair_styled(p, sum->sliver ? STYLE_WARN : STYLE_PLAIN, "  of them slivers", "%" PRId64,
	        sum->sliver);
	if (sum->made_up)
		pane_pair(p, "made up in joint", "%" PRId64, sum->made_up);
}

/* What happens to the joints of a course on a curve. */
static void curve_lines(struct pane *p, const struct section *s, bool single)
{
	char label[40] = "joints open to", mm[40];

	mm_print(mm, sizeof mm, llround(s->wide_joint_um / 100) * 100);
	if (!single)
		snprintf(label, sizeof label, "course %d joints to", s->course + 1);
	if (!s->wedges)
		pane_pair(p, label, "%s mm", mm);
	else if (single)
		pane_text(p, STYLE_WARN,
		        "All cut to wedges: joints would open to %s mm on the curve.", mm);
	else
		pane_text(p, STYLE_WARN,
		        "Course %d all cut to wedges: joints would open to %s mm on the curve.",
		        s->course + 1, mm);
}

void pane_edge_border(struct app *app, struct pane *p)
{
	const struct plan_ring *r = &app->plan.rings[app->view.ring];
	int64_t number = r->nodes[app->view.at].border;
	const struct plan_border *b;
	size_t edge = plan_edge_number(&app->plan, app->view.ring, app->view.at);
	struct tally sum = { 0 };
	char words[160];

	if (!r->closed && app->view.at + 1 >= r->count)
		return;
	if (!number) {
		pane_pair(p, "border courses", "none");
		return;
	}
	b = &app->plan.borders[number - 1];
	pane_pair(p, "border courses", "border %" PRId64, number);
	pane_text(p, STYLE_PLAIN, "%s", border_print(words, sizeof words, b));
	for (size_t i = 0; i < app->t.laid.section_count; i++)
		if (app->t.laid.sections[i].kind == SECTION_BORDER &&
		        app->t.laid.sections[i].edge == edge)
			add_counts(&sum, &app->t.laid.sections[i]);
	tally_lines(p, &sum);
	for (size_t i = 0; i < app->t.laid.section_count; i++)
		if (app->t.laid.sections[i].kind == SECTION_BORDER &&
		        app->t.laid.sections[i].edge == edge && app->t.laid.sections[i].curved)
			curve_lines(p, &app->t.laid.sections[i], b->deep == 1);
}

static double border_length_um(const struct plan *plan, int64_t number)
{
	double length = 0;

	for (size_t r = 0; r < plan->ring_count; r++)
		for (size_t i = 0; i < plan->rings[r].count; i++)
			if (plan->rings[r].nodes[i].border == number)
				length += edge_length_um(&plan->rings[r], i);
	return length;
}

void pane_borders(struct app *app, struct pane *p)
{
	for (size_t n = 0; n < app->plan.border_count; n++) {
		size_t edges = border_edges(&app->plan, (int64_t)n + 1);
		struct tally sum = { 0 };
		char words[160], length[32];

		if (!edges)
			continue;
		for (size_t i = 0; i < app->t.laid.section_count; i++)
			if (app->t.laid.sections[i].kind == SECTION_BORDER &&
			        app->t.laid.sections[i].number == n)
				add_counts(&sum, &app->t.laid.sections[i]);
		snprintf(words, sizeof words, "%zu  border", n + 1);
		pane_head(p, words);
		snprintf(words, sizeof words, "%zu edge%s", edges, edges == 1 ? "" : "s");
		pane_pair(p, words, "%s m",
		        metres(length, llround(border_length_um(&app->plan, (int64_t)n + 1))));
		pane_text(p, STYLE_PLAIN, "%s",
		        border_print(words, sizeof words, &app->plan.borders[n]));
		pane_pair(p, "whole + cut pieces", "%" PRId64 " + %" PRId64, sum.whole, sum.cut);
	}
}
