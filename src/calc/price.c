/* price.c - see price.h. */
#include "slabwright/price.h"

#include "slabwright/money.h"
#include "slabwright/takeoff.h"

#include <inttypes.h>
#include <stdio.h>

static const int64_t MOST_MINOR = INT64_C(100000000000000000);

struct pricing {
	struct arena *mem;
	const struct plan_costs *costs;
	const struct labour *labour;
	struct price *out;
	size_t capacity;
	bool failed; /* memory is gone */
};

const char *cost_group_name(enum cost_group group)
{
	static const char *const names[] = { "materials", "labour", "plant hire", "extras" };

	return names[group];
}

char *thousandths_print(char *buf, size_t size, int64_t milli)
{
	int64_t rest = milli % 1000;

	if (rest % 1000 == 0)
		snprintf(buf, size, "%" PRId64, milli / 1000);
	else if (rest % 100 == 0)
		snprintf(buf, size, "%" PRId64 ".%01" PRId64, milli / 1000, rest / 100);
	else if (rest % 10 == 0)
		snprintf(buf, size, "%" PRId64 ".%02" PRId64, milli / 1000, rest / 10);
	else
		snprintf(buf, size, "%" PRId64 ".%03" PRId64, milli / 1000, rest);
	return buf;
}

static const char *kept(struct pricing *p, const char *words)
{
	p->failed = p->failed || !words;
	return words ? words : "";
}

/* The line as it stands but for amount and formula; quantity_words: what is multiplied. */
static void put_line(struct pricing *p, struct price_line line, const char *quantity_words)
{
	int64_t each = line.each_minor;
	struct price_line *lines = arena_grow(
	        p->mem, p->out->lines, p->out->count, &p->capacity, sizeof *p->out->lines);

	if (!lines) {
		p->failed = true;
		return;
	}
	p->out->lines = lines;
	if (each < 0)
		line.formula = kept(p, arena_print(p->mem, "%s, price not known", quantity_words));
	else
		line.formula = kept(p, arena_print(p->mem, "%s x %" PRId64 ".%02" PRId64,
		                               quantity_words, each / 100, each % 100));
	lines[p->out->count++] = line;
}

static const char *quantity_words(struct pricing *p, int64_t milli, const char *unit)
{
	char number[24];

	return kept(
	        p, arena_print(p->mem, "%s%s%s", thousandths_print(number, sizeof number, milli),
	                   *unit ? " " : "", unit));
}

/* Amount of a line that is no material. */
static void put_work(struct pricing *p, struct price_line line)
{
	line.amount_minor = -1;
	if (*line.fault)
		;
	else if (!line.quantity_milli)
		line.amount_minor = 0;
	else if (line.each_minor < 0)
		line.fault = "its price is not known; give it in the costs";
	else
		line.amount_minor = money_times(line.quantity_milli, line.each_minor);
	if (line.group == COST_HIRE && line.quantity_milli == 1000)
		line.unit = "day";
	put_line(p, line, quantity_words(p, line.quantity_milli, line.unit));
}

/* --- materials --- */

static const char *price_source(struct pricing *p)
{
	const char *date = p->costs->price_date, *note = p->costs->price_note;

	if (!*date && !*note)
		return "price as entered, without a date";
	return kept(p, arena_print(p->mem, "%s%s%s%s", *date ? "price of " : "price: ", date,
	                       *date && *note ? ", " : "", note));
}

static const char *material_unit(const struct material_line *m)
{
	static const char *const units[SOLD_KINDS] = { "t", "bulk bags", "bags", "rolls", "cans",
		"m3" };

	return m->piece ? "pieces" : units[m->sold];
}

static const char *material_from(struct pricing *p, const struct material_line *m)
{
	const char *words =
	        kept(p, arena_print(p->mem, "net %.*f %s, with wastage %.*f", m->piece ? 0 : 3,
	                        m->net, m->unit, m->piece ? 0 : 3, m->needed));

	for (size_t i = 0; i < m->part_count; i++)
		words = kept(p, arena_print(p->mem, "%s; %s: %s", words, m->parts[i].what,
		                        m->parts[i].formula));
	return words;
}

static void put_materials(struct pricing *p, const struct materials *materials)
{
	const char *source = price_source(p);

	for (size_t i = 0; i < materials->count; i++) {
		const struct material_line *m = &materials->lines[i];
		bool tenths = !m->piece && (m->sold == SOLD_LOOSE || m->sold == SOLD_M3);
		struct price_line line = { .group = COST_MATERIALS,
			.of = i,
			.what = m->name,
			.quantity_milli = m->buy * (tenths ? 100 : 1000),
			.unit = material_unit(m),
			.each_minor = m->each_minor,
			.amount_minor = m->buy ? m->price_minor : 0,
			.from = material_from(p, m),
			.source = m->each_minor < 0 ? "" : source,
			.fault = "" };

		if (line.amount_minor < 0)
			line.fault = "its price is not known; give it in the costs, or where it is "
			             "chosen";
		put_line(p, line, m->buy_words);
	}
}

/* --- labour, hire, extras --- */

static void put_labour(struct pricing *p)
{
	for (int i = 0; i < TASKS; i++) {
		const struct labour_task *k = &p->labour->tasks[i];
		struct price_line line = { .group = COST_LABOUR,
			.of = (size_t)i,
			.what = task_name((enum task)i),
			.quantity_milli = k->hours_centi * 10,
			.unit = "h",
			.each_minor = p->costs->wage_minor,
			.fault = k->fault };
		char minutes[24];

		if (!k->hours_centi && !*k->fault)
			continue;
		thousandths_print(minutes, sizeof minutes, p->costs->task_minutes_milli[i]);
		line.from = kept(p,
		        arena_print(p->mem, "%.*f %s x %s min (%s)", labour_decimals((enum task)i),
		                k->quantity, task_unit((enum task)i), minutes, k->parts));
		line.source = labour_usual_rate(p->costs, (enum task)i)
		                      ? "output rate: common practice, no source"
		                      : "the crew's own output rate";
		put_work(p, line);
	}
}

/* Whole days that the task fills, one after another; plant is hired by the day. */
static int64_t task_days(const struct pricing *p, enum task task)
{
	int64_t minutes = labour_crew_minutes(p->labour->tasks[task].hours_centi, p->costs->crew);

	return (minutes + p->costs->day_minutes - 1) / p->costs->day_minutes;
}

static void put_hire(struct pricing *p)
{
	for (size_t i = 0; i < p->costs->hire_count; i++) {
		const struct plan_hire *h = &p->costs->hire[i];
		struct price_line line = { .group = COST_HIRE,
			.of = i,
			.what = h->name,
			.quantity_milli = h->days_milli,
			.unit = "days",
			.each_minor = h->price_minor,
			.from = "",
			.source = h->price_minor < 0 ? "" : price_source(p),
			.fault = "" };

		if (!h->days_milli) {
			line.quantity_milli = task_days(p, h->task) * 1000;
			line.fault = p->labour->tasks[h->task].fault;
			line.from = kept(p, arena_print(p->mem,
			                            "whole days of %s: %" PRId64 ".%02" PRId64
			                            " h of one person",
			                            task_name(h->task),
			                            p->labour->tasks[h->task].hours_centi / 100,
			                            p->labour->tasks[h->task].hours_centi % 100));
		}
		put_work(p, line);
	}
}

static void put_extras(struct pricing *p)
{
	for (size_t i = 0; i < p->costs->extra_count; i++) {
		const struct plan_extra *x = &p->costs->extras[i];

		put_work(p, (struct price_line){ .group = COST_EXTRAS,
		                    .of = i,
		                    .what = x->name,
		                    .quantity_milli = x->quantity_milli,
		                    .unit = x->unit,
		                    .each_minor = x->price_minor,
		                    .from = "",
		                    .source = x->price_minor < 0 ? "" : price_source(p),
		                    .fault = "" });
	}
}

/* --- sums --- */

static enum status too_much(struct error *err)
{
	return error_set(err, STATUS_PLAN,
	        "The price comes to more than 1000000000000000; look at prices, quantities and "
	        "minutes a unit.");
}

static enum status sum_lines(struct price *out, struct error *err)
{
	for (size_t i = 0; i < out->count; i++) {
		const struct price_line *l = &out->lines[i];

		if (*l->fault) {
			out->unknown++;
			continue;
		}
		if (l->amount_minor > MOST_MINOR - out->costs_minor)
			return too_much(err);
		out->group_minor[l->group] += l->amount_minor;
		out->costs_minor += l->amount_minor;
	}
	return STATUS_OK;
}

static enum status work_out_price(
        const struct plan_costs *costs, struct price *out, struct error *err)
{
	int64_t net;

	out->margin_minor = money_share(out->costs_minor, costs->margin_ppm);
	net = out->costs_minor + out->margin_minor;
	out->discount_minor = money_share(net, costs->discount_ppm);
	net -= out->discount_minor;
	if (costs->whole_money)
		out->rounding_minor = money_whole(net) - net;
	out->before_tax_minor = net + out->rounding_minor;
	out->tax_minor = money_share(out->before_tax_minor, costs->tax_ppm);
	out->total_minor = out->before_tax_minor + out->tax_minor;
	return out->total_minor > MOST_MINOR ? too_much(err) : STATUS_OK;
}

enum status price_of_labour(struct arena *mem, const struct plan_costs *costs,
        const struct labour *labour, const struct materials *materials, struct price *out,
        struct error *err)
{
	struct pricing p = { mem, costs, labour, out, 0, false };
	enum status st;

	*out = (struct price){ .hours_centi = labour->hours_centi };
	put_materials(&p, materials);
	put_labour(&p);
	put_hire(&p);
	put_extras(&p);
	if (p.failed)
		return error_memory(err);
	st = sum_lines(out, err);
	return st == STATUS_OK ? work_out_price(costs, out, err) : st;
}

enum status price_work_out(struct arena *mem, const struct takeoff *t,
        const struct materials *materials, struct price *out, struct error *err)
{
	struct labour labour;
	enum status st = labour_work_out(mem, t, &labour, err);

	if (st != STATUS_OK)
		return st;
	return price_of_labour(mem, &t->plan.costs, &labour, materials, out, err);
}
