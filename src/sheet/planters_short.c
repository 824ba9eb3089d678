/* planters_short.c - planters in the take-off: a line or two each; the rest is in their own sheet.
 */
#include "form.h"

#include <inttypes.h>

void text_put_planters(FILE *to, const struct takeoff *t)
{
	char words[240];

	if (!t->planters.count)
		return;
	fputs("\nPlanters\n", to);
	for (size_t i = 0; i < t->planters.count; i++) {
		const struct planter_result *r = &t->planters.items[i];
		const struct planter_blocks *b = &r->blocks;

		planter_words(words, sizeof words, r->planter, i);
		words[0] = 'P';
		fputs("  ", to);
		sheet_put_text(to, words);
		fputs(": ", to);
		if (!r->ready) {
			fprintf(to, "cannot be built. %s\n", r->fault.text);
			continue;
		}
		fprintf(to,
		        "%.3f m of wall, %" PRId64 " course%s; %" PRId64 " blocks to buy, %" PRId64
		        " pieces cut; held soil: %s\n",
		        r->middle_m, r->planter->courses, r->planter->courses == 1 ? "" : "s",
		        b->buy_whole + b->buy_half + b->buy_corner, b->cut, r->wall.reason);
	}
}
