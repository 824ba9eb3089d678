/* act_border.c - which border courses run along an edge.
 *
 * A plan has a list of borders, and its edges name them. Putting one along edges changes their ring
 * at once; a new one first makes the list longer by an edit of its own. */
#include "actions.h"
#include "zones.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

/* Rows beside those of the plan's borders, which have their numbers from 1. */
enum { ROW_NONE = 0, ROW_TYPED = BORDERS + 1, ROW_CATALOGUE, ROW_ALL_ROUND, ROW_KIND };

/* For which edges of the chosen one's ring a choice is. */
enum scope { THIS_EDGE, ALL_ROUND, SAME_KIND };

static const struct plan_ring *ring_here(const struct app *app)
{
	return &app->plan.rings[app->view.ring];
}

static const struct plan_node *edge_here(const struct app *app)
{
	return &ring_here(app)->nodes[app->view.at];
}

bool border_edge_chosen(struct app *app)
{
	const struct plan_ring *r;

	if (app->view.ring >= app->plan.ring_count) {
		app_refuse(app,
		        "There are no edges yet: draw the outline first (Shift-Tab leads there).");
		return false;
	}
	r = ring_here(app);
	if (app->view.at < r->count && (r->closed || app->view.at + 1 < r->count))
		return true;
	app_refuse(app, "No edge leaves this corner yet: close the ring first, or choose another "
	                "with p.");
	return false;
}

size_t border_edges(const struct plan *plan, int64_t number)
{
	size_t count = 0;

	for (size_t r = 0; r < plan->ring_count; r++)
		for (size_t i = 0; i < plan->rings[r].count; i++)
			count += plan->rings[r].nodes[i].border == number;
	return count;
}

static const char *scope_words(const struct app *app, enum scope scope, char buf[120])
{
	char words[64];

	if (scope == THIS_EDGE)
		snprintf(buf, 120, "along %s",
		        edge_words(words, sizeof words, app->view.ring, app->view.at));
	else if (scope == ALL_ROUND)
		snprintf(buf, 120, "all round %s", ring_words(&app->plan, app->view.ring, words));
	else
		snprintf(buf, 120, "along each %s of %s", edge_kind_name(edge_here(app)->kind),
		        ring_words(&app->plan, app->view.ring, words));
	return buf;
}

static bool in_scope(const struct app *app, enum scope scope, size_t at)
{
	return at == app->view.at || scope == ALL_ROUND ||
	       (scope == SAME_KIND && ring_here(app)->nodes[at].kind == edge_here(app)->kind);
}

/* How many edges a choice is for, and how many of them have another border than the chosen one. */
static size_t scope_count(const struct app *app, enum scope scope, size_t *others)
{
	const struct plan_ring *r = ring_here(app);
	size_t count = 0;

	*others = 0;
	for (size_t i = 0; i < r->count; i++) {
		if (!in_scope(app, scope, i))
			continue;
		count++;
		*others += r->nodes[i].border != edge_here(app)->border;
	}
	return count;
}

/* "border 2", "no border". */
static const char *border_words(int64_t number, char buf[40])
{
	if (number)
		snprintf(buf, 40, "border %" PRId64, number);
	else
		snprintf(buf, 40, "no border");
	return buf;
}

/* The edit that puts the border along the edges; its ring's corners in mem. */
static bool along_edit(
        struct app *app, struct arena *mem, enum scope scope, int64_t number, struct edit *out)
{
	const struct plan_ring *r = ring_here(app);
	char border[40], where[120];

	*out = (struct edit){ .type = EDIT_RING_SET, .ring = app->view.ring, .ring_value = *r };
	out->ring_value.nodes = arena_alloc(mem, r->count, sizeof *r->nodes);
	if (!out->ring_value.nodes) {
		app_refuse(app, "No memory is left for that.");
		return false;
	}
	memcpy(out->ring_value.nodes, r->nodes, r->count * sizeof *r->nodes);
	for (size_t i = 0; i < r->count; i++)
		if (in_scope(app, scope, i))
			out->ring_value.nodes[i].border = number;
	snprintf(out->label, sizeof out->label, "%s %s", border_words(number, border),
	        scope_words(app, scope, where));
	return true;
}

/* What was set, and what could come next. */
static void say_set(struct app *app, enum scope scope)
{
	const struct plan_node *n = edge_here(app);
	char border[40], where[120], words[160];
	size_t others;

	border_words(n->border, border);
	border[0] = (char)(border[0] & ~0x20);
	scope_words(app, scope, where);
	if (!n->border)
		app_say(app, "%s %s.", border, where);
	else if (scope_count(app, ALL_ROUND, &others), scope == THIS_EDGE && others)
		app_say(app, "%s %s: %s. b again lays the same all round; i changes it.", border,
		        where,
		        border_print(words, sizeof words, &app->plan.borders[n->border - 1]));
	else
		app_say(app, "%s %s: %s. i changes it.", border, where,
		        border_print(words, sizeof words, &app->plan.borders[n->border - 1]));
}

static bool put_along(struct app *app, enum scope scope, int64_t number)
{
	struct arena mem = { 0 };
	struct edit edit;
	bool done = along_edit(app, &mem, scope, number, &edit) && app_edit(app, &edit);

	arena_free(&mem);
	if (done)
		say_set(app, scope);
	return done;
}

/* The number for a new border: the next one, or where the list is full that of one along no edge; 0
 * where there is none. */
static int64_t free_number(const struct plan *plan)
{
	if (plan->border_count < BORDERS)
		return (int64_t)plan->border_count + 1;
	for (int64_t n = 1; n <= BORDERS; n++)
		if (!border_edges(plan, n))
			return n;
	return 0;
}

/* Puts a border that the plan has not yet along the chosen edge. */
static bool put_new(struct app *app, const struct plan_border *border)
{
	struct plan_border list[BORDERS];
	struct arena mem = { 0 };
	struct edit edits[2] = { { .type = EDIT_BORDERS, .borders = list } };
	int64_t number = free_number(&app->plan);
	bool done;

	if (!number) {
		app_refuse(app,
		        "A plan has %d borders at most, and each runs along some edge: "
		        "choose one of them.",
		        BORDERS);
		return false;
	}
	edits[0].border_count = app->plan.border_count;
	if (edits[0].border_count)
		memcpy(list, app->plan.borders, edits[0].border_count * sizeof *list);
	if ((size_t)number > edits[0].border_count)
		edits[0].border_count = (size_t)number;
	list[number - 1] = *border;
	snprintf(edits[0].label, sizeof edits[0].label, "new border %" PRId64, number);
	done = along_edit(app, &mem, THIS_EDGE, number, &edits[1]) && app_edits(app, edits, 2);
	arena_free(&mem);
	if (done)
		say_set(app, THIS_EDGE);
	return done;
}

/* A soldier course of slabs as thick, dense and jointed as the field's. */
static struct plan_border like_field(const struct app *app)
{
	const struct plan_slab *field = &app->plan.laying.slab;
	struct plan_border b;

	border_init(&b);
	b.slab.thickness_um = field->thickness_um;
	b.slab.joint_um = field->joint_um;
	b.slab.size = field->size;
	b.slab.density_kg_m3 = field->density_kg_m3;
	border_keep_widest(&b);
	return b;
}

static bool typed_done(struct app *app, const char *text)
{
	struct plan_border b = like_field(app);

	return border_edge_chosen(app) &&
	       two_lengths(app, text, UNIT_MM, &b.slab.length_um, &b.slab.width_um) &&
	       put_new(app, &b);
}

static void slab_chosen(struct app *app, const struct list_row *row)
{
	struct arena mem = { 0 };
	struct plan_border b = like_field(app);

	if (border_edge_chosen(app) && slab_of_catalogue(app, &mem, row->id, &b.slab)) {
		border_keep_widest(&b);
		put_new(app, &b);
	}
	arena_free(&mem);
}

static void border_chosen(struct app *app, const struct list_row *row)
{
	if (!border_edge_chosen(app))
		return;
	switch (row->id) {
	case ROW_TYPED:
		prompt_open(app, "New border, slab's length x width",
		        "Millimetres, 20 mm to 5 m: 200 x 100. Joint and thickness are the "
		        "field's; i changes all of it later.",
		        "", typed_done);
		break;
	case ROW_CATALOGUE:
		slabs_choice(app, "Slab of a new border, from the catalogue", "", slab_chosen);
		break;
	case ROW_ALL_ROUND:
		put_along(app, ALL_ROUND, edge_here(app)->border);
		break;
	case ROW_KIND:
		put_along(app, SAME_KIND, edge_here(app)->border);
		break;
	default:
		put_along(app, THIS_EDGE, row->id);
	}
}

/* Rows that lay what the chosen edge has along others too, where they have something else. */
static void add_scope(struct app *app, enum scope scope, const char *start, int64_t id)
{
	size_t others, count = scope_count(app, scope, &others);
	char words[120], note[80], where[120], border[40];

	if (!others)
		return;
	snprintf(words, sizeof words, "%s %s", start, scope_words(app, scope, where));
	snprintf(note, sizeof note, "%s, %s%zu edges", border_words(edge_here(app)->border, border),
	        scope == ALL_ROUND ? "all " : "", count);
	choice_add(app, words, note, id);
}

void act_border(struct app *app, int key)
{
	char title[120], edge[64], words[160], line[200], note[64];

	(void)key;
	if (!border_edge_chosen(app))
		return;
	snprintf(title, sizeof title, "Border courses along %s",
	        edge_words(edge, sizeof edge, app->view.ring, app->view.at));
	choice_open(app, title, border_chosen);
	choice_add(app, "none", "the field to the edge", ROW_NONE);
	for (size_t i = 0; i < app->plan.border_count; i++) {
		size_t edges = border_edges(&app->plan, (int64_t)i + 1);

		snprintf(line, sizeof line, "%zu: %s", i + 1,
		        border_print(words, sizeof words, &app->plan.borders[i]));
		snprintf(note, sizeof note, edges ? "along %zu edge%s" : "along no edge", edges,
		        edges == 1 ? "" : "s");
		choice_add(app, line, note, (int64_t)i + 1);
	}
	choice_add(app, "a new border, size typed", "length x width in mm", ROW_TYPED);
	choice_add(app, "a new border of a catalogue slab", "with its price", ROW_CATALOGUE);
	add_scope(app, ALL_ROUND, "the same", ROW_ALL_ROUND);
	add_scope(app, SAME_KIND, "the same", ROW_KIND);
	list_mark(&app->choice, edge_here(app)->border);
}
