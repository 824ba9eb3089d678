/* act_border_values.c - the values of a border, each a row of one table. */
#include "actions.h"

#include <inttypes.h>
#include <stddef.h>
#include <stdio.h>

/* Beside the plain ones. */
enum { VALUE_SLAB = PLAIN_VALUES, VALUE_SIDES, VALUE_SHIFT, VALUE_TURNED };

struct border_value {
	const char *name, *hint;
	int value; /* enum value, or one of the above */
	size_t offset; /* of the int64_t in plan_border, where it is a plain one */
	/* Of one that is turned over at once: how, and its words. */
	void (*turn)(struct plan_border *b);
	const char *(*words)(const struct plan_border *b);
	bool (*has)(const struct plan_border *b); /* NULL: each border has it */
};

static bool two_deep(const struct plan_border *b)
{
	return b->deep == 2;
}

static void turn_lay(struct plan_border *b)
{
	b->lay = b->lay == BORDER_SOLDIER ? BORDER_STRETCHER : BORDER_SOLDIER;
}

static const char *lay_words(const struct plan_border *b)
{
	return b->lay == BORDER_SOLDIER ? "soldier: across the run" : "stretcher: along the run";
}

static void turn_deep(struct plan_border *b)
{
	b->deep = b->deep == 1 ? 2 : 1;
}

static const char *deep_words(const struct plan_border *b)
{
	return b->deep == 1 ? "1" : "2";
}

static void turn_corners(struct plan_border *b)
{
	b->corners = b->corners == CORNER_MITRED ? CORNER_BUTTED : CORNER_MITRED;
}

static const char *corner_words(const struct plan_border *b)
{
	return b->corners == CORNER_MITRED ? "mitred: both runs cut" : "butted: one goes through";
}

static void turn_begin(struct plan_border *b)
{
	b->begin = b->begin == BEGIN_CORNER ? BEGIN_MIDDLE : BEGIN_CORNER;
}

static const char *begin_words(const struct plan_border *b)
{
	return b->begin == BEGIN_CORNER ? "at the run's first corner" : "in the run's middle";
}

static void turn_size(struct plan_border *b)
{
	b->slab.size = b->slab.size == SIZE_COORDINATING ? SIZE_WORK : SIZE_COORDINATING;
}

static const char *size_words(const struct plan_border *b)
{
	return size_meaning_words(b->slab.size);
}

static void turn_grain(struct plan_border *b)
{
	b->slab.directional = !b->slab.directional;
}

static const char *border_grain_words(const struct plan_border *b)
{
	return grain_words(b->slab.directional);
}

enum { ROW_SLAB, ROW_JOINT = 3 }; /* places in the list */

static const struct border_value values[] = {
	[ROW_SLAB] = { .name = "Slab", .value = VALUE_SLAB },
	{ .name = "Length x width",
	        .hint = "Millimetres, 20 mm to 5 m: 200 x 100. Typing replaces it.",
	        .value = VALUE_SIDES },
	{ .name = "Length and width mean",
	        .value = VALUE_TURNED,
	        .turn = turn_size,
	        .words = size_words },
	[ROW_JOINT] = { .name = "Joint",
	        .hint = "Millimetres, 0 to 100. Typing replaces it.",
	        .offset = offsetof(struct plan_border, slab.joint_um) },
	{ .name = "Thickness",
	        .hint = "Millimetres, 5 mm to 1 m. Typing replaces it.",
	        .offset = offsetof(struct plan_border, slab.thickness_um) },
	{ .name = "Laid as", .value = VALUE_TURNED, .turn = turn_lay, .words = lay_words },
	{ .name = "Courses", .value = VALUE_TURNED, .turn = turn_deep, .words = deep_words },
	{ .name = "Shift of the second course",
	        .hint = "A part of a slab: 1/2, 1/3 or 0,4. Typing replaces it.",
	        .value = VALUE_SHIFT,
	        .has = two_deep },
	{ .name = "Corners", .value = VALUE_TURNED, .turn = turn_corners, .words = corner_words },
	{ .name = "Slabs counted from",
	        .value = VALUE_TURNED,
	        .turn = turn_begin,
	        .words = begin_words },
	{ .name = "Widest joint on curves",
	        .hint = "Millimetres at the wide end, from the joint to 100: where it would be "
	                "wider, slabs are cut to wedges.",
	        .offset = offsetof(struct plan_border, widest_joint_um) },
	{ .name = "Price of one slab",
	        .hint = "In your money: 1,40. An empty line: not known.",
	        .value = VALUE_MONEY,
	        .offset = offsetof(struct plan_border, slab.price_minor) },
	{ .name = "Pack",
	        .hint = "Slabs in a pack that is not split; 1 where they are sold singly.",
	        .value = VALUE_COUNT,
	        .offset = offsetof(struct plan_border, slab.pack) },
	{ .name = "Density",
	        .hint = "Kilograms a cubic metre: 2300; 0 when not known.",
	        .value = VALUE_DENSITY,
	        .offset = offsetof(struct plan_border, slab.density_kg_m3) },
	{ .name = "Grain or top",
	        .value = VALUE_TURNED,
	        .turn = turn_grain,
	        .words = border_grain_words },
};

static int64_t *member(struct plan_border *b, const struct border_value *v)
{
	return (int64_t *)(void *)((char *)b + v->offset);
}

void border_keep_widest(struct plan_border *b)
{
	if (b->widest_joint_um < b->slab.joint_um)
		b->widest_joint_um = b->slab.joint_um;
}

/* The number of the chosen edge's border; 0, with the reason shown, where there is none. */
static int64_t number_here(struct app *app)
{
	int64_t number;

	if (!border_edge_chosen(app))
		return 0;
	number = app->plan.rings[app->view.ring].nodes[app->view.at].border;
	if (number >= 1 && number <= (int64_t)app->plan.border_count)
		return number;
	app_refuse(app, "The chosen edge has no border: b sets one.");
	return 0;
}

/* Puts the border in the place of the chosen edge's. */
static bool set_border(struct app *app, const struct plan_border *border, const char *what)
{
	struct plan_border list[BORDERS];
	struct edit e = { .type = EDIT_BORDERS, .borders = list };
	int64_t number = number_here(app);
	char label[40];

	if (!number)
		return false;
	e.border_count = app->plan.border_count;
	for (size_t i = 0; i < e.border_count; i++)
		list[i] = app->plan.borders[i];
	list[number - 1] = *border;
	snprintf(label, sizeof label, "%s", what);
	label[0] = (char)(label[0] | 0x20);
	snprintf(e.label, sizeof e.label, "change border %" PRId64 ": %s", number, label);
	return app_edit(app, &e);
}

/* The list again, with the row just changed marked, so that one value after the other can be set.
 */
static void back_to_list(struct app *app, size_t which)
{
	act_border_values(app, 0);
	list_mark(&app->choice, (int64_t)which);
}

static bool slab_typed(struct app *app, const char *text, struct plan_slab *slab)
{
	if (!two_lengths(app, text, UNIT_MM, &slab->length_um, &slab->width_um))
		return false;
	slab->name = "";
	slab->pack = 1; /* what was known of the other slab does not hold for this one */
	slab->price_minor = -1;
	return true;
}

static bool shift_typed(struct app *app, const char *text, double *offset)
{
	struct error err;

	return fraction_parse(text, offset, &err) == STATUS_OK || app_fail(app, &err);
}

static bool value_done(struct app *app, const char *text)
{
	size_t which = (size_t)app->prompt.number;
	const struct border_value *v = &values[which];
	int64_t number = number_here(app);
	struct plan_border b;
	bool taken;

	if (!number)
		return false;
	b = app->plan.borders[number - 1];
	taken = v->value == VALUE_SIDES ? slab_typed(app, text, &b.slab)
	        : v->value == VALUE_SHIFT
	                ? shift_typed(app, text, &b.offset)
	                : value_typed(app, (enum value)v->value, text, member(&b, v));
	if (!taken)
		return false;
	if (which == ROW_JOINT)
		border_keep_widest(&b);
	if (!set_border(app, &b, v->name))
		return false;
	back_to_list(app, which);
	return true;
}

static void slab_chosen(struct app *app, const struct list_row *row)
{
	int64_t number = number_here(app);
	struct arena mem = { 0 };
	struct plan_border b;

	if (!number)
		return;
	b = app->plan.borders[number - 1];
	if (slab_of_catalogue(app, &mem, row->id, &b.slab)) {
		border_keep_widest(&b);
		if (set_border(app, &b, values[ROW_SLAB].name))
			back_to_list(app, ROW_SLAB);
	}
	arena_free(&mem);
}

/* As the list shows it. */
static const char *words_of(struct plan_border *b, const struct border_value *v, char buf[64])
{
	char l[24], w[24];

	switch (v->value) {
	case VALUE_SLAB:
		return *b->slab.name ? b->slab.name : "not from the catalogue";
	case VALUE_SIDES:
		snprintf(buf, 64, "%s x %s", mm_print(l, sizeof l, b->slab.length_um),
		        mm_print(w, sizeof w, b->slab.width_um));
		return buf;
	case VALUE_SHIFT:
		return fraction_print(buf, 64, b->offset);
	case VALUE_TURNED:
		return v->words(b);
	default:
		return value_print(buf, 64, (enum value)v->value, *member(b, v));
	}
}

static void ask(struct app *app, struct plan_border *b, size_t which)
{
	const struct border_value *v = &values[which];
	char buf[64];
	const char *offered = v->value < PLAIN_VALUES ? value_offered(buf, sizeof buf,
	                                                        (enum value)v->value, *member(b, v))
	                                              : words_of(b, v, buf);

	prompt_open(app, v->name, v->hint, offered, value_done)->number = (int64_t)which;
}

static void value_chosen(struct app *app, const struct list_row *row)
{
	size_t which = (size_t)row->id;
	int64_t number = number_here(app);
	struct plan_border b;

	if (!number)
		return;
	b = app->plan.borders[number - 1];
	if (values[which].value == VALUE_SLAB) {
		slabs_choice(
		        app, "Slab of the border, from the catalogue", b.slab.name, slab_chosen);
	} else if (values[which].value == VALUE_TURNED) {
		values[which].turn(&b);
		if (set_border(app, &b, values[which].name))
			back_to_list(app, which);
	} else {
		ask(app, &b, which);
	}
}

void act_border_values(struct app *app, int key)
{
	int64_t number = number_here(app);
	struct plan_border b;
	char title[120], buf[64];
	size_t edges;

	(void)key;
	if (!number)
		return;
	b = app->plan.borders[number - 1];
	edges = border_edges(&app->plan, number);
	snprintf(title, sizeof title, "Border %" PRId64 ", along %zu edge%s", number, edges,
	        edges == 1 ? "" : "s: what is changed holds for all of them");
	choice_open(app, title, value_chosen);
	for (size_t i = 0; i < sizeof values / sizeof values[0]; i++)
		if (!values[i].has || values[i].has(&b))
			choice_add(app, values[i].name, words_of(&b, &values[i], buf), (int64_t)i);
}
