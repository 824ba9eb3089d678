/* handling.c - masses against the limits of a rule set. */
#include "slabwright/handling.h"

#include <math.h>
#include <stdio.h>

const char *lift_class_name(enum lift_class lift)
{
	static const char *const names[] = { "not known", "no limit", "one person", "two people",
		"lifting aid or plant" };

	return names[lift];
}

double block_mass_kg(int64_t length_um, int64_t width_um, int64_t height_um, int64_t density_kg_m3)
{
	return (double)length_um * (double)width_um * (double)height_um * 1e-18 *
	       (double)density_kg_m3;
}

struct handling handling_of(const struct rules *rules, double kg)
{
	const struct rule *one = rules_find(rules, "lift_one_person"),
	                  *two = rules_find(rules, "lift_two_people");
	struct handling h = { .kg = kg, .source = one ? one->source : "" };
	int64_t grams = llround(kg * 1000);

	h.one_g = one ? one->number : 0;
	h.two_g = two ? two->number : h.one_g * 4 / 3;
	if (kg <= 0)
		h.lift = LIFT_UNKNOWN;
	else if (!one)
		h.lift = LIFT_NO_LIMIT;
	else if (grams <= h.one_g)
		h.lift = LIFT_ONE;
	else if (grams <= h.two_g)
		h.lift = LIFT_TWO;
	else
		h.lift = LIFT_AID;
	return h;
}

char *handling_print(char *buf, size_t size, const struct handling *h)
{
	double one = (double)h->one_g / 1000, two = (double)h->two_g / 1000;

	switch (h->lift) {
	case LIFT_UNKNOWN:
		snprintf(buf, size, "not known, as the density is not; weigh one");
		break;
	case LIFT_NO_LIMIT:
		snprintf(buf, size, "%.1f kg; the rule set names no limit for one person", h->kg);
		break;
	case LIFT_ONE:
		snprintf(buf, size, "%.1f kg, within the %g kg for one person (%s)", h->kg, one,
		        h->source);
		break;
	case LIFT_TWO:
		snprintf(buf, size,
		        "%.1f kg, over the %g kg for one person (%s): two people or a lifting aid",
		        h->kg, one, h->source);
		break;
	case LIFT_AID:
		snprintf(buf, size,
		        "%.1f kg, over the %g kg for one person (%s) and the %g kg for two: a "
		        "lifting aid or plant",
		        h->kg, one, h->source, two);
		break;
	}
	return buf;
}
