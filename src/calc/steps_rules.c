/* steps_rules.c - a flight against the limits of a rule set, and the number of its risers.
 *
 * A measure is a fraction with the number of risers below, so that a riser of 2/3 mm is compared
 * exactly. */
#include "steps_parts.h"

#include <inttypes.h>
#include <math.h>

enum measure { RISER, GOING, PACE, PITCH, RISE, WIDTH, LANDING };

static const struct {
	const char *key, *what;
	enum measure measure;
	bool least;
} limits[] = {
	{ "riser_min", "riser", RISER, true },
	{ "riser_max", "riser", RISER, false },
	{ "going_min", "going", GOING, true },
	{ "going_max", "going", GOING, false },
	{ "two_r_plus_g_min", "two risers and a going", PACE, true },
	{ "two_r_plus_g_max", "two risers and a going", PACE, false },
	{ "pitch_max", "pitch", PITCH, false },
	{ "flight_rise_max", "rise of the flight", RISE, false },
	{ "step_width_min", "width", WIDTH, true },
	{ "landing_min", "landing", LANDING, true },
};

enum { LIMITS = sizeof limits / sizeof *limits };

static const double PITCH_NOISE = 1e-6; /* thousandths of a degree */

struct stair {
	const struct plan_steps *steps;
	int64_t rise_um, risers;
};

static double pitch_deg(const struct stair *s)
{
	return atan2((double)s->rise_um / (double)s->risers, (double)s->steps->going_um) * 180 /
	       M_PI;
}

/* The measure times the number of risers; not of the pitch. */
static int64_t measure_times(const struct stair *s, enum measure m)
{
	int64_t n = s->risers;

	switch (m) {
	case RISER:
		return s->rise_um;
	case GOING:
		return n * s->steps->going_um;
	case PACE:
		return 2 * s->rise_um + n * s->steps->going_um;
	case RISE:
		return n * s->rise_um;
	case WIDTH:
		return n * s->steps->width_um;
	case LANDING:
		return n * s->steps->landing_um;
	case PITCH:
		break;
	}
	return 0;
}

static bool obeys(const struct stair *s, int limit, const struct rule *rule)
{
	int64_t is;

	if (limits[limit].measure == PITCH)
		return pitch_deg(s) * 1000 <= (double)rule->number + PITCH_NOISE;
	is = measure_times(s, limits[limit].measure);
	return limits[limit].least ? is >= rule->number * s->risers
	                           : is <= rule->number * s->risers;
}

/* Whether the flight obeys all limits of a measure that the rule set has. */
static bool obeys_all(const struct rules *rules, const struct stair *s, enum measure m)
{
	for (int i = 0; i < LIMITS; i++) {
		const struct rule *rule =
		        limits[i].measure == m ? rules_find(rules, limits[i].key) : NULL;

		if (rule && !obeys(s, i, rule))
			return false;
	}
	return true;
}

/* --- the number --- */

/* Between which numbers the rise lies. */
static enum status no_number(const struct steps_job *job, struct flight *f, struct error *err)
{
	const struct rule *least = rules_find(job->rules, "riser_min"),
	                  *most = rules_find(job->rules, "riser_max");
	double low = least ? (double)least->number / 1000 : 0,
	       high = most ? (double)most->number / 1000 : 0;
	double rise = (double)f->rise_um / 1000;
	int64_t below = most ? f->rise_um / most->number : 0;
	const char *source = most ? most->source : least->source;

	if (!most || below < 1)
		f->fault = arena_print(job->mem,
		        "A rise of %g mm is less than the least riser of %g mm (%s). Make it a "
		        "slope, or change the levels.",
		        rise, low, source);
	else if (below >= STEPS_MOST_RISERS)
		f->fault = arena_print(job->mem,
		        "A rise of %g mm takes more than %d risers of at most %g mm (%s). Part it "
		        "into flights.",
		        rise, STEPS_MOST_RISERS, high, source);
	else
		f->fault = arena_print(job->mem,
		        "No whole number of equal risers of %g to %g mm (%s) makes a rise of %g "
		        "mm: %" PRId64 " reach%s %g to %g mm, %" PRId64
		        " reach %g to %g mm. Lift the foot by %g mm or lower it by %g mm, or set "
		        "the number yourself.",
		        low, high, source, rise, below, below == 1 ? "es" : "", (double)below * low,
		        (double)below * high, below + 1, (double)(below + 1) * low,
		        (double)(below + 1) * high, rise - (double)below * high,
		        (double)(below + 1) * low - rise);
	return f->fault ? STATUS_OK : error_memory(err);
}

/* Whether number n comes before the best so far: obeying more, then fewer risers, or nearer to what
 * the unit makes. */
static bool better(int grade, double far, int best_grade, double best_far)
{
	return grade > best_grade || (grade == best_grade && far < best_far);
}

enum status steps_choose(const struct steps_job *job, struct flight *f, struct error *err)
{
	const struct plan_steps *steps = f->steps;
	bool fewest = rules_find(job->rules, "riser_max") != NULL;
	double made = (double)steps_made_um(steps, f->tread_fall_um), best_far = 0;
	int best_grade = 0;

	f->chosen = steps->risers == 0;
	f->risers = steps->risers;
	for (int64_t n = 1; n <= STEPS_MOST_RISERS && f->chosen; n++) {
		struct stair s = { steps, f->rise_um, n };
		double far = fewest ? (double)n : fabs((double)f->rise_um / (double)n - made);
		int grade = !obeys_all(job->rules, &s, RISER) ? 0
		            : !obeys_all(job->rules, &s, PACE) || !obeys_all(job->rules, &s, PITCH)
		                    ? 1
		                    : 2;

		if (grade && better(grade, far, best_grade, best_far)) {
			f->risers = n;
			best_grade = grade;
			best_far = far;
		}
	}
	return f->risers ? STATUS_OK : no_number(job, f, err);
}

/* --- the checks --- */

static void find_goings(const struct steps_job *job, struct flight *f)
{
	const struct rule *pitch = rules_find(job->rules, "pitch_max"),
	                  *least = rules_find(job->rules, "going_min"),
	                  *most = rules_find(job->rules, "going_max"),
	                  *pace_least = rules_find(job->rules, "two_r_plus_g_min"),
	                  *pace_most = rules_find(job->rules, "two_r_plus_g_max");
	double low = least ? (double)least->number : 0;
	double high = most ? (double)most->number : INFINITY;

	if (pitch)
		low = fmax(low, f->riser_um / tan((double)pitch->number / 1000 * M_PI / 180));
	if (pace_least)
		low = fmax(low, (double)pace_least->number - 2 * f->riser_um);
	if (pace_most)
		high = fmin(high, (double)pace_most->number - 2 * f->riser_um);
	f->going_least_um = (int64_t)ceil(low - 1e-6);
	f->going_most_um = isinf(high) ? INT64_MAX : (int64_t)floor(high + 1e-6);
}

/* Another number that the rules allow whose riser is nearer to what the unit makes, where that can
 * be built: a unit higher than its riser cannot be stacked. */
static void find_other(const struct steps_job *job, struct flight *f)
{
	double made = (double)steps_made_um(f->steps, f->tread_fall_um);
	double least = made - (double)f->steps->bed_um, best = fabs(f->riser_um - made);

	if (f->riser_um < least)
		best = INFINITY;
	for (int64_t n = 1; n <= STEPS_MOST_RISERS; n++) {
		struct stair s = { f->steps, f->rise_um, n };
		double riser = (double)f->rise_um / (double)n;

		if (riser < least || fabs(riser - made) >= best - 1 ||
		        !obeys_all(job->rules, &s, RISER) || !obeys_all(job->rules, &s, PACE) ||
		        !obeys_all(job->rules, &s, PITCH))
			continue;
		f->other_risers = n;
		best = fabs(riser - made);
	}
}

static bool wanted_from(const struct steps_job *job, const char *key, int64_t value)
{
	const struct rule *rule = rules_find(job->rules, key);

	return rule && value >= rule->number;
}

enum status steps_check_rules(const struct steps_job *job, struct flight *f, struct error *err)
{
	struct stair s = { f->steps, f->rise_um, f->risers };
	const struct rule *drop = rules_find(job->rules, "guard_drop");

	f->checks = arena_alloc(job->mem, LIMITS, sizeof *f->checks);
	if (!f->checks)
		return error_memory(err);
	f->riser_um = (double)f->rise_um / (double)f->risers;
	f->pace_um = 2 * f->riser_um + (double)f->steps->going_um;
	f->pitch_deg = pitch_deg(&s);
	f->obeys = true;
	for (int i = 0; i < LIMITS; i++) {
		const struct rule *rule = rules_find(job->rules, limits[i].key);
		struct step_check *c = &f->checks[f->check_count];

		if (!rule || (limits[i].measure == LANDING && !f->steps->landing_um))
			continue;
		*c = (struct step_check){ rule, limits[i].what, limits[i].least, 0,
			obeys(&s, i, rule) };
		c->is = limits[i].measure == PITCH
		                ? f->pitch_deg * 1000
		                : (double)measure_times(&s, limits[i].measure) / (double)f->risers;
		f->obeys = f->obeys && c->obeyed;
		f->check_count++;
	}
	f->handrail = wanted_from(job, "handrail_risers", f->risers * 1000);
	f->guard = (drop && f->rise_um > drop->number) ||
	           wanted_from(job, "guard_risers", f->risers * 1000);
	find_goings(job, f);
	find_other(job, f);
	return STATUS_OK;
}

bool risers_alike(const struct rules *rules, const int64_t *riser_um, size_t count)
{
	const struct rule *most = rules_find(rules, "riser_spread_max");
	int64_t low = INT64_MAX, high = INT64_MIN;

	for (size_t i = 0; i < count; i++) {
		low = riser_um[i] < low ? riser_um[i] : low;
		high = riser_um[i] > high ? riser_um[i] : high;
	}
	return !most || !count || high - low <= most->number;
}
