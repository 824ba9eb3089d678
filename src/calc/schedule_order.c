/* schedule_order.c - the order of work, as tables, and what weather allows. */
#include "schedule_parts.h"

static const char *const names[ACTIVITIES] = { "strip topsoil", "dig", "cart", "membrane",
	"sub-base", "drains", "edging", "planter walls", "steps", "laying slabs", "jointing",
	"sealing", "filling planters", "clearing up" };

const char *activity_name(enum activity activity)
{
	return names[activity];
}

enum activity activity_of(enum task task)
{
	static const enum activity of[TASKS] = {
		[TASK_STRIP] = ACTIVITY_STRIP,
		[TASK_DIG] = ACTIVITY_DIG,
		[TASK_CART] = ACTIVITY_CART,
		[TASK_MEMBRANE] = ACTIVITY_MEMBRANE,
		[TASK_SUB_BASE] = ACTIVITY_SUB_BASE,
		[TASK_EDGING] = ACTIVITY_EDGING,
		[TASK_DRAINS] = ACTIVITY_DRAINS,
		[TASK_WALL] = ACTIVITY_WALLS,
		[TASK_STEP] = ACTIVITY_STEPS,
		[TASK_BEDDING] = ACTIVITY_LAYING,
		[TASK_LAY] = ACTIVITY_LAYING,
		[TASK_BORDER] = ACTIVITY_LAYING,
		[TASK_CUT] = ACTIVITY_LAYING,
		[TASK_JOINT] = ACTIVITY_JOINTING,
		[TASK_SEAL] = ACTIVITY_SEALING,
		[TASK_FILL] = ACTIVITY_FILLING,
		[TASK_CLEAR] = ACTIVITY_CLEARING,
	};

	return of[task];
}

/* `before` always stands before `after` in the order of work. */
const struct activity_link activity_links[] = {
	{ ACTIVITY_STRIP, ACTIVITY_DIG, HOLD_NONE },
	{ ACTIVITY_DIG, ACTIVITY_CART, HOLD_NONE },
	{ ACTIVITY_CART, ACTIVITY_MEMBRANE, HOLD_NONE },
	{ ACTIVITY_MEMBRANE, ACTIVITY_SUB_BASE, HOLD_NONE },
	{ ACTIVITY_SUB_BASE, ACTIVITY_DRAINS, HOLD_NONE },
	{ ACTIVITY_DRAINS, ACTIVITY_EDGING, HOLD_NONE },
	{ ACTIVITY_EDGING, ACTIVITY_WALLS, HOLD_NONE },
	{ ACTIVITY_WALLS, ACTIVITY_STEPS, HOLD_NONE },
	{ ACTIVITY_STEPS, ACTIVITY_LAYING, HOLD_NONE },
	{ ACTIVITY_DRAINS, ACTIVITY_LAYING, HOLD_CHANNEL },
	{ ACTIVITY_EDGING, ACTIVITY_LAYING, HOLD_HAUNCH },
	{ ACTIVITY_LAYING, ACTIVITY_JOINTING, HOLD_NONE },
	{ ACTIVITY_JOINTING, ACTIVITY_SEALING, HOLD_JOINT },
	{ ACTIVITY_WALLS, ACTIVITY_FILLING, HOLD_WALL },
	{ ACTIVITY_JOINTING, ACTIVITY_CLEARING, HOLD_NONE },
	{ ACTIVITY_SEALING, ACTIVITY_CLEARING, HOLD_NONE },
	{ ACTIVITY_FILLING, ACTIVITY_CLEARING, HOLD_NONE },
};
const size_t activity_link_count = sizeof activity_links / sizeof *activity_links;

const char *schedule_hold_words(enum hold hold)
{
	static const char *const words[] = { "", "the haunch of the edging hardens",
		"the bed of the channels hardens", "the planter walls harden",
		"the joints harden" };

	return words[hold];
}

#define BIT(activity) (1u << (activity))
enum {
	MORTARED = BIT(ACTIVITY_WALLS) | BIT(ACTIVITY_STEPS),
	BEDDED = BIT(ACTIVITY_EDGING) | BIT(ACTIVITY_DRAINS),
	WET = MORTARED | BEDDED,
};

static const struct {
	unsigned with; /* any of these activities is in the job */
	const char *text;
} limits[] = {
	{ WET, "Cement-gauged mortar: not at or below 3 C when it is getting colder, and not below "
	       "1 C when it is getting warmer (masonry clauses of a UK standard-form project "
	       "specification, 2014)." },
	{ WET, "Concrete: not delivered colder than 5 C, and not placed unless the air is at 2 C "
	       "or more and getting warmer (a contractor's site guidance handbook)." },
	{ WET, "Concrete of ordinary Portland cement is kept moist for 7 days (US unified "
	       "facilities guide specification 03701); cover it in sun, wind and frost." },
	{ WET, "Below about 5 C concrete and mortar harden much more slowly: lengthen the holds "
	       "(common practice, no source)." },
	{ BIT(ACTIVITY_DIG) | BIT(ACTIVITY_SUB_BASE),
	        "Formation and sub-base are not compacted soaked or frozen; cover an open dig "
	        "against rain (common practice, no source)." },
	{ BIT(ACTIVITY_JOINTING),
	        "Dry joint filling wants a dry surface and a dry day; slurry and bound filling "
	        "none "
	        "of rain or frost while they harden (common practice, no source; the product's own "
	        "sheet goes before)." },
	{ BIT(ACTIVITY_SEALING),
	        "Sealer wants dry joints and slabs, 5 to 25 C, and no rain for a day (common "
	        "practice, no source; the product's own sheet goes before)." },
};

enum { LIMITS = sizeof limits / sizeof *limits };

void schedule_note(struct schedule *s, const char *text)
{
	if (s->note_count < sizeof s->notes / sizeof *s->notes)
		s->notes[s->note_count++] = text;
}

void schedule_note_limits(struct schedule *s)
{
	unsigned in_job = 0;

	for (unsigned i = 0; i < ACTIVITIES; i++)
		if (s->activities[i].hours_centi)
			in_job |= BIT(i);
	for (int i = 0; i < LIMITS; i++)
		if (limits[i].with & in_job)
			schedule_note(s, limits[i].text);
}
