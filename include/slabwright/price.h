/* price.h - from costs to the price.
 *
 * A line is what one thing costs: its quantity times its price, rounded once, half away from 0, to
 * the minor unit of money (two decimals). All sums are of whole minor units:
 *
 *   costs    = sum of the lines whose price is known
 *   margin   = costs * margin, rounded
 *   discount = (costs + margin) * discount, rounded
 *   rounding = what brings the rest to whole money, half up, where that is asked for; else 0
 *   tax      = (costs + margin - discount + rounding) * tax, rounded
 *   total    = costs + margin - discount + rounding + tax
 *
 * A line whose price or quantity is not known counts nothing, and the price is told to be without
 * it. What there is none of costs nothing, whatever it costs. */
#ifndef SLABWRIGHT_PRICE_H
#define SLABWRIGHT_PRICE_H

#include "slabwright/labour.h"
#include "slabwright/materials.h"

enum cost_group { COST_MATERIALS, COST_LABOUR, COST_HIRE, COST_EXTRAS, COST_GROUPS };
const char *cost_group_name(enum cost_group group); /* "plant hire" */

struct price_line {
	enum cost_group group;
	size_t of; /* its number among the materials' lines, tasks, hire or extras */
	const char *what; /* "laying", "crushed stone 0-40" */
	int64_t quantity_milli; /* thousandths; of materials what is bought */
	const char *unit; /* "h", "bags", "days" */
	int64_t each_minor; /* price of one; -1 unknown */
	int64_t amount_minor; /* -1 unknown */
	const char *formula; /* "12.56 h x 38.00" */
	const char *from; /* what gave the quantity: "31.390 m2 x 40 min"; "" it was given */
	const char *source; /* of rate and price, or "common practice"; "" none named */
	const char *fault; /* why its quantity or price is not known, and the remedy; "" known */
};

struct price {
	struct price_line *lines; /* group by group */
	size_t count;
	int64_t group_minor[COST_GROUPS];
	int64_t costs_minor, margin_minor, discount_minor, rounding_minor;
	int64_t before_tax_minor; /* costs + margin - discount + rounding */
	int64_t tax_minor, total_minor;
	size_t unknown; /* lines that count nothing because something is not known */
	int64_t hours_centi; /* of one person, hundredths */
};

/* The price of a take-off that is ready. Everything in *out lives in mem; the take-off and the
 * materials must outlive it. Refuses (STATUS_PLAN) what labour_work_out refuses, and a price of
 * over 10^15. STATUS_MEMORY. */
enum status price_work_out(struct arena *mem, const struct takeoff *t,
        const struct materials *materials, struct price *out, struct error *err);

/* The same of work that is known already. */
enum status price_of_labour(struct arena *mem, const struct plan_costs *costs,
        const struct labour *labour, const struct materials *materials, struct price *out,
        struct error *err);

/* Thousandths without zeros at the end: "12.56". Returns buf; 24 bytes are enough. */
char *thousandths_print(char *buf, size_t size, int64_t milli);

#endif
