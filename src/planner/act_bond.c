/* act_bond.c - the choice of bonds: those of one slab, the catalogue's repeats of mixed sizes, and
 * its packs for coursed random bond. */
#include "actions.h"
#include "zones.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

enum { FIRST_REPEAT = 1000, FIRST_MIX = 2000, LAST_SEED = 1000000000 };

struct bond_row {
	const char *name, *words;
	enum bond bond;
	enum along along;
};

static const struct bond_row bond_rows[] = {
	{ "stack", "joints run through both ways", BOND_STACK, ALONG_X },
	{ "stretcher", "each course shifts by a part (o)", BOND_STRETCHER, ALONG_X },
	{ "stretcher along y", "the same, with the courses upright", BOND_STRETCHER, ALONG_Y },
	{ "herringbone", "slabs 2 : 1; r turns it, say by 45", BOND_HERRINGBONE, ALONG_X },
	{ "basket weave", "slabs 2 : 1 or 3 : 1", BOND_BASKETWEAVE, ALONG_X },
};

enum { BOND_ROWS = sizeof bond_rows / sizeof *bond_rows };

/* What the catalogue has beside single slabs. */
struct patterns {
	struct arena mem;
	struct store_repeats repeats;
	struct store_mixes mixes;
};

static bool read_patterns(struct app *app, struct patterns *p)
{
	struct error err;

	*p = (struct patterns){ 0 };
	if (store_repeats(app->store, &p->mem, &p->repeats, &err) == STATUS_OK &&
	        store_mixes(app->store, &p->mem, &p->mixes, &err) == STATUS_OK)
		return true;
	arena_free(&p->mem);
	app_fail(app, &err);
	return false;
}

static bool same_mix(const struct plan_mix *a, const struct plan_mix *b)
{
	return a->count == b->count && memcmp(a->sizes, b->sizes, a->count * sizeof *a->sizes) == 0;
}

/* Choosing the mix that is laid already draws its courses anew. */
static void take_mix(const struct app *app, const struct plan_mix *mix, struct plan_laying *laying)
{
	const struct plan_laying *now = laying_here(app);

	laying->bond = BOND_COURSED_RANDOM;
	laying->mix = *mix;
	if (now->bond == BOND_COURSED_RANDOM && same_mix(&now->mix, mix))
		laying->mix.seed = (now->mix.seed + 1) % LAST_SEED;
}

static void bond_chosen(struct app *app, const struct list_row *row)
{
	struct plan_laying laying = *laying_here(app);
	struct patterns p;
	size_t at = (size_t)(row->id % FIRST_REPEAT);
	char words[80];

	if (!read_patterns(app, &p))
		return;
	if (row->id < FIRST_REPEAT && at < BOND_ROWS) {
		laying.bond = bond_rows[at].bond;
		laying.along = bond_rows[at].along;
		if (laying.bond == BOND_STRETCHER && laying.offset <= 0)
			laying.offset = 0.5;
	} else if (row->id < FIRST_MIX && at < p.repeats.count) {
		laying.bond = BOND_MIXED;
		laying.repeat = p.repeats.items[at];
	} else if (row->id >= FIRST_MIX && at < p.mixes.count) {
		take_mix(app, &p.mixes.items[at].mix, &laying);
	}
	if (edit_laying(app, "choose the bond", &laying)) {
		if (laying.bond == BOND_COURSED_RANDOM)
			app_say(app,
			        "Coursed random, draw %" PRId64 ". Choose it again to draw anew.",
			        laying.mix.seed);
		else
			app_say(app, "Bond: %s.", bond_print(words, sizeof words, &laying));
	}
	arena_free(&p.mem);
}

static void add_repeats(struct app *app, const struct store_repeats *repeats)
{
	const struct plan_laying *now = laying_here(app);

	for (size_t i = 0; i < repeats->count; i++) {
		const struct plan_repeat *r = &repeats->items[i];
		char note[80];

		snprintf(note, sizeof note, "mixed sizes, %zu slabs a repeat", r->count);
		choice_add(app, r->name, note, FIRST_REPEAT + (int64_t)i);
		if (now->bond == BOND_MIXED && strcmp(now->repeat.name, r->name) == 0)
			app->choice.at = BOND_ROWS + i;
	}
}

static void add_mixes(struct app *app, const struct store_mixes *mixes, size_t before)
{
	const struct plan_laying *now = laying_here(app);

	for (size_t i = 0; i < mixes->count; i++) {
		const struct store_mix *m = &mixes->items[i];
		char note[80];

		snprintf(note, sizeof note, "coursed random, %zu sizes a pack", m->mix.count);
		choice_add(app, m->name, note, FIRST_MIX + (int64_t)i);
		if (now->bond == BOND_COURSED_RANDOM && same_mix(&now->mix, &m->mix))
			app->choice.at = before + i;
	}
}

void act_bond(struct app *app, int key)
{
	struct patterns p;

	(void)key;
	if (!slabs_here(app) || !read_patterns(app, &p))
		return;
	choice_open(app, "Bond", bond_chosen);
	for (size_t i = 0; i < BOND_ROWS; i++) {
		const struct bond_row *b = &bond_rows[i];

		choice_add(app, b->name, b->words, (int64_t)i);
		if (b->bond == laying_here(app)->bond && b->along == laying_here(app)->along)
			app->choice.at = i;
	}
	add_repeats(app, &p.repeats);
	add_mixes(app, &p.mixes, BOND_ROWS + p.repeats.count);
	arena_free(&p.mem);
}
