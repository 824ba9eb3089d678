/* look.c - by lines, by dots or by marks alone: how slabs can be shown in cells of a size. */
#include "sketch.h"
#include "zones.h"

/* From joint to joint: of bonds of several sizes, the mean of them. */
static struct slab_size usual_pitch(const struct plan_laying *l)
{
	size_t repeat = l->bond == BOND_MIXED ? l->repeat.count : 0,
	       mix = l->bond == BOND_COURSED_RANDOM ? l->mix.count : 0;
	int64_t count = (int64_t)(repeat + mix);
	struct slab_size size = slab_size(&l->slab);

	if (!count)
		return size;
	size.pitch_x_um = size.pitch_y_um = 0;
	for (size_t i = 0; i < repeat; i++) {
		size.pitch_x_um += l->repeat.slabs[i].length_um / count;
		size.pitch_y_um += l->repeat.slabs[i].width_um / count;
	}
	for (size_t i = 0; i < mix; i++) {
		size.pitch_x_um += l->mix.sizes[i].length_um / count;
		size.pitch_y_um += l->mix.sizes[i].width_um / count;
	}
	return size;
}

static int64_t min(int64_t a, int64_t b)
{
	return a < b ? a : b;
}

int64_t slabs_shorter_um(const struct plan_laying *laying)
{
	struct slab_size size = usual_pitch(laying);

	return min(size.pitch_x_um, size.pitch_y_um);
}

/* The shortest side of any slab of the bond. */
static int64_t least_side(const struct plan_laying *l)
{
	int64_t least = slabs_shorter_um(l);

	for (size_t i = 0; l->bond == BOND_MIXED && i < l->repeat.count; i++) {
		const struct repeat_slab *b = &l->repeat.slabs[i];

		least = min(least, min(b->length_um, b->width_um));
	}
	for (size_t i = 0; l->bond == BOND_COURSED_RANDOM && i < l->mix.count; i++) {
		const struct mix_size *m = &l->mix.sizes[i];

		least = min(least, min(m->length_um, m->width_um));
	}
	return least;
}

/* Whether joints lie neither along x nor along y of the plan: lines of characters read badly then.
 */
static bool aslant(const struct plan_laying *l)
{
	return l->rotation_udeg % (90 * UDEG_PER_DEG) != 0;
}

/* Lines want a slab of three columns by nine tenths of a row. Dots want 2.6 of them along its
 * shorter side, 3 aslant, and 2 along the shortest of several sizes. */
static enum slab_look laying_look(const struct plan_laying *l, int64_t cell_um, bool ascii)
{
	struct slab_size size = usual_pitch(l);

	if (size.pitch_x_um * 2 >= cell_um * 3 && size.pitch_y_um * 10 >= cell_um * 9 &&
	        (ascii || !aslant(l)))
		return LOOK_LINES;
	if (!ascii && slabs_shorter_um(l) * 100 >= cell_um * (aslant(l) ? 75 : 65) &&
	        least_side(l) * 2 >= cell_um)
		return LOOK_DOTS;
	return LOOK_MARKS;
}

enum slab_look slabs_look(const struct app *app, int64_t cell_um)
{
	return laying_look(
	        paved_here(app) ? laying_here(app) : &app->plan.laying, cell_um, app->ascii);
}

/* A border's slabs may lie any way, so the same is asked of them both ways. */
enum slab_look section_look(const struct section *s, int64_t cell_um, bool ascii)
{
	const struct pattern_part *part = &s->laid.pattern.parts[0];
	int64_t shorter = min(part->length_um, part->width_um) + s->laid.pattern.joint_um;

	if (!s->strip)
		return laying_look(&s->laying, cell_um, ascii);
	if (shorter * 2 >= cell_um * 3)
		return LOOK_LINES;
	return !ascii && shorter * 100 >= cell_um * 75 ? LOOK_DOTS : LOOK_MARKS;
}

const char *slabs_note(struct app *app)
{
	enum slab_look look = slabs_look(app, app->view.cell_um);
	int64_t near = view_cell_for(app, LOOK_DOTS);
	const char *words;

	if (look != LOOK_MARKS)
		return look == LOOK_DOTS ? "Dotted lines are joints." : "";
	if (!near)
		return "Slabs this small never show one by one.";
	words = arena_print(&app->frame_mem,
	        "Single slabs show in cells of %g cm or less, now %.4g cm: + zooms in.",
	        (double)near / 1e4, (double)app->view.cell_um / 1e4);
	return words ? words : "";
}

void slabs_say_far(struct app *app)
{
	if (app->place == AT_LAYING && app->t.ready &&
	        slabs_look(app, app->view.cell_um) == LOOK_MARKS)
		app_say(app, "This far off only cut pieces show. %s", slabs_note(app));
}
