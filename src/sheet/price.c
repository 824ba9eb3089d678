/* price.c - the cost sheet in three forms: every line with what gave it, and the way from costs to
 * the price. For the crew; the client gets the quotation. */
#include "csv_row.h"
#include "money.h"
#include "slabwright/json.h"

#include <inttypes.h>

struct price_sheet {
	const struct takeoff *t;
	const struct price *p;
};

const char *percent_print(char *buf, size_t size, int64_t ppm)
{
	char number[24];

	if (ppm % 10)
		snprintf(buf, size, "%g %%", (double)ppm / 10000);
	else
		snprintf(buf, size, "%s %%", thousandths_print(number, sizeof number, ppm / 10));
	return buf;
}

/* The steps from costs to the total, for all forms. */
struct price_step {
	const char *label, *key;
	int64_t ppm; /* -1: no share */
	int64_t minor;
};

enum { STEPS = 7 };

static void price_steps(const struct price_sheet *s, struct price_step out[STEPS])
{
	const struct plan_costs *c = &s->t->plan.costs;
	const struct price *p = s->p;
	const struct price_step steps[STEPS] = {
		{ "costs", "costs_minor", -1, p->costs_minor },
		{ "margin on costs", "margin_minor", c->margin_ppm, p->margin_minor },
		{ "discount", "discount_minor", c->discount_ppm, -p->discount_minor },
		{ "rounding to whole money", "rounding_minor", -1, p->rounding_minor },
		{ "before tax", "before_tax_minor", -1, p->before_tax_minor },
		{ "tax", "tax_minor", c->tax_ppm, p->tax_minor },
		{ "total", "total_minor", -1, p->total_minor },
	};

	for (int i = 0; i < STEPS; i++)
		out[i] = steps[i];
}

/* --- text --- */

void text_unknown(FILE *to, const struct price *p)
{
	if (!p->unknown)
		return;
	fprintf(to, "\nWithout %zu line%s whose price is not known\n", p->unknown,
	        p->unknown == 1 ? "" : "s");
	for (size_t i = 0; i < p->count; i++) {
		const struct price_line *l = &p->lines[i];

		if (!*l->fault)
			continue;
		fprintf(to, "  %s, ", cost_group_name(l->group));
		sheet_put_text(to, l->what);
		fputs(": ", to);
		sheet_put_text(to, l->fault);
		fputc('\n', to);
	}
}

static void text_price_line(FILE *to, const struct price_line *l)
{
	char money[40];

	fputs("  ", to);
	sheet_put_text(to, l->what);
	fputs(": ", to);
	sheet_put_text(to, l->formula);
	if (l->amount_minor >= 0 && !*l->fault)
		fprintf(to, " = %s", money_print(money, sizeof money, l->amount_minor));
	fputc('\n', to);
	if (*l->from) {
		fputs("    ", to);
		sheet_put_text(to, l->from);
		fputc('\n', to);
	}
	if (*l->source) {
		fputs("    (", to);
		sheet_put_text(to, l->source);
		fputs(")\n", to);
	}
}

static void text_group(FILE *to, const struct price_sheet *s, enum cost_group group)
{
	static const char *const heads[] = { "Materials", "Labour", "Plant hire", "Extras" };
	char money[40];
	bool any = false;

	for (size_t i = 0; i < s->p->count; i++) {
		if (s->p->lines[i].group != group)
			continue;
		if (!any)
			fprintf(to, "\n%s\n", heads[group]);
		any = true;
		text_price_line(to, &s->p->lines[i]);
	}
	if (any)
		text_line(to, "together", "%s",
		        money_print(money, sizeof money, s->p->group_minor[group]));
}

static void text_price(FILE *to, const void *what)
{
	const struct price_sheet *s = what;
	const struct plan_costs *c = &s->t->plan.costs;
	struct price_step steps[STEPS];
	char money[40], share[40];

	text_title(to, s->t, "Costs and price");
	fprintf(to, "For the crew, not for the client. Money in %s.\n", c->currency);
	fprintf(to, "Prices of %s", *c->price_date ? c->price_date : "no date given");
	if (*c->price_note) {
		fputs(": ", to);
		sheet_put_text(to, c->price_note);
	}
	fputc('\n', to);
	for (int g = 0; g < COST_GROUPS; g++)
		text_group(to, s, (enum cost_group)g);
	fputs("\nFrom costs to the price\n", to);
	price_steps(s, steps);
	for (int i = 0; i < STEPS; i++) {
		fprintf(to, "  %s", steps[i].label);
		if (steps[i].ppm >= 0)
			fprintf(to, ", %s", percent_print(share, sizeof share, steps[i].ppm));
		fprintf(to, ": %s\n", money_print(money, sizeof money, steps[i].minor));
	}
	text_line(to, "work", "%" PRId64 ".%02" PRId64 " hours of one person",
	        s->p->hours_centi / 100, s->p->hours_centi % 100);
	text_unknown(to, s->p);
}

/* --- CSV --- */

static void csv_money(struct row *r, int64_t minor)
{
	char money[40];

	row_separate(r);
	fputs(money_print(money, sizeof money, minor), r->to);
}

static void csv_price_line(struct row *r, const struct price_line *l)
{
	char number[24];

	row_text(r, cost_group_name(l->group));
	row_text(r, l->what);
	row_separate(r);
	fputs(thousandths_print(number, sizeof number, l->quantity_milli), r->to);
	row_text(r, l->unit);
	if (l->each_minor < 0)
		row_empty(r);
	else
		csv_money(r, l->each_minor);
	if (*l->fault)
		row_empty(r);
	else
		csv_money(r, l->amount_minor);
	row_text(r, l->formula);
	row_text(r, l->from);
	row_text(r, l->source);
	row_text(r, l->fault);
	row_end(r);
}

static void csv_price(FILE *to, const void *what)
{
	const struct price_sheet *s = what;
	struct price_step steps[STEPS];
	struct row r = { to, false };

	ROW_HEADER(&r, "group", "what", "quantity", "unit", "each", "amount", "formula", "from",
	        "source", "not known");
	for (size_t i = 0; i < s->p->count; i++)
		csv_price_line(&r, &s->p->lines[i]);
	price_steps(s, steps);
	for (int i = 0; i < STEPS; i++) {
		char share[40];

		row_text(&r, "price");
		row_text(&r, steps[i].label);
		row_empty(&r);
		row_text(&r, s->t->plan.costs.currency);
		row_empty(&r);
		csv_money(&r, steps[i].minor);
		row_text(&r,
		        steps[i].ppm < 0 ? "" : percent_print(share, sizeof share, steps[i].ppm));
		row_empty(&r);
		row_empty(&r);
		row_empty(&r);
		row_end(&r);
	}
}

/* --- JSON --- */

static void json_price_line(struct json *j, const struct price_line *l)
{
	json_object(j, NULL);
	json_text(j, "group", cost_group_name(l->group));
	json_text(j, "what", l->what);
	json_real(j, "quantity", (double)l->quantity_milli / 1000);
	json_text(j, "unit", l->unit);
	minor_or_null(j, "each_minor", l->each_minor);
	minor_or_null(j, "amount_minor", *l->fault ? -1 : l->amount_minor);
	json_text(j, "formula", l->formula);
	json_text(j, "from", l->from);
	json_text(j, "source", l->source);
	json_text(j, "not_known", *l->fault ? l->fault : NULL);
	json_end(j);
}

static void json_price(struct json *j, const void *what)
{
	const struct price_sheet *s = what;
	const struct plan_costs *c = &s->t->plan.costs;
	struct price_step steps[STEPS];

	json_object(j, NULL);
	json_text(j, "variant", s->t->plan.name);
	json_text(j, "currency", c->currency);
	json_text(j, "price_date", *c->price_date ? c->price_date : NULL);
	json_text(j, "price_note", c->price_note);
	json_array(j, "lines");
	for (size_t i = 0; i < s->p->count; i++)
		json_price_line(j, &s->p->lines[i]);
	json_end(j);
	json_object(j, "groups_minor");
	for (int g = 0; g < COST_GROUPS; g++)
		json_int(j, cost_group_name((enum cost_group)g), s->p->group_minor[g]);
	json_end(j);
	price_steps(s, steps);
	for (int i = 0; i < STEPS; i++)
		json_int(j, steps[i].key, steps[i].minor);
	json_int(j, "unknown", (int64_t)s->p->unknown);
	json_real(j, "person_hours", (double)s->p->hours_centi / 100);
	json_end(j);
}

enum status sheet_price(FILE *to, const struct takeoff *t, const struct price *price,
        enum sheet_form form, struct error *err)
{
	static const struct sheet_forms forms = { text_price, csv_price, json_price };
	struct price_sheet s = { t, price };

	return sheet_write(to, &forms, &s, form, err);
}
