/* lift.c - what a thing weighs and who lifts it, in words. */
#include "pane.h"

#include <stdio.h>

double slab_kg(const struct plan_slab *slab)
{
	struct slab_size size = slab_size(slab);

	return block_mass_kg(
	        size.length_um, size.width_um, slab->thickness_um, slab->density_kg_m3);
}

static const char *kg_words(char *buf, size_t size, double kg)
{
	snprintf(buf, size, kg < 100 ? "%.1f kg" : "%.0f kg", kg);
	return buf;
}

void pane_lift(struct pane *p, const char *words, const struct handling *h)
{
	char kg[32];

	if (h->kg <= 0)
		return;
	kg_words(kg, sizeof kg, h->kg);
	if (h->lift > LIFT_ONE) {
		pane_pair_styled(p, STYLE_WARN, words, "%s", kg);
		pane_text(p, STYLE_WARN, "! lift: %s", lift_class_name(h->lift));
	} else {
		pane_pair(p, words, "%s, %s", kg,
		        h->lift == LIFT_NO_LIMIT ? "no limit set" : lift_class_name(h->lift));
	}
}

const char *lift_note(const struct app *app, char *buf, size_t size, double kg)
{
	static const char *const by[] = {
		[LIFT_ONE] = "one", [LIFT_TWO] = "two", [LIFT_AID] = "aid"
	};
	struct handling h = handling_of(&app->t.rules, kg);
	char weight[32];

	buf[0] = '\0';
	if (h.lift > LIFT_NO_LIMIT)
		snprintf(buf, size, ", %s by %s", kg_words(weight, sizeof weight, kg), by[h.lift]);
	else if (kg > 0)
		snprintf(buf, size, ", %s", kg_words(weight, sizeof weight, kg));
	return buf;
}
