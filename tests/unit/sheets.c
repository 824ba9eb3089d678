/* sheets.c - see sheets.h. */
#include "sheets.h"

#include <check.h>
#include <string.h>

#define M UM_PER_M
#define MM UM_PER_MM

sheet_writer *const sheets[SHEETS] = { sheet_takeoff, sheet_cuts, sheet_courses, sheet_water,
	sheet_levels };

void worked_patio(struct worked *w)
{
	const struct plan_node outline[] = {
		{ 0, 0, 0, EDGE_HOUSE_WALL, 0, 0 },
		{ 5 * M, 0, 0, EDGE_KERB, 0, 0 },
		{ 5 * M, 4 * M, 300 * MM, EDGE_HAUNCH, 0, 0 },
		{ 0, 4 * M, 0, EDGE_PLANTER, 0, 0 },
	};
	const struct plan_node drain[] = {
		{ 2 * M, 2 * M, 0, EDGE_OPEN, 0, 0 },
		{ 2450 * MM, 2 * M, 0, EDGE_OPEN, 0, 0 },
		{ 2450 * MM, 2450 * MM, 0, EDGE_OPEN, 0, 0 },
		{ 2 * M, 2450 * MM, 0, EDGE_OPEN, 0, 0 },
	};

	worked_init(w, outline, 4);
	worked_add_opening(w, drain, 4);
	worked_set_fall(w, 0, 90 * UDEG_PER_DEG, 15000);
	w->plan.laying.start_x_um = 123 * MM;
	w->plan.laying.slab.name = "Test flag";
	w->plan.laying.slab.density_kg_m3 = 2300;
	w->plan.laying.slab.price_minor = 1250;
	w->plan.ground.has_instrument = true;
	w->plan.ground.benchmark_um = 0;
	w->plan.ground.backsight_um = 1345 * MM;
	w->plan.edging[EDGE_KERB] =
	        (struct plan_edging){ .name = "kerb", .unit_um = 915 * MM, .joint_um = 3 * MM };
	work_out_plan(w);
}

char *sheet_written(const struct worked *w, sheet_writer *sheet, enum sheet_form form)
{
	char *text = NULL;
	size_t size;
	FILE *to = open_memstream(&text, &size);
	struct error err = { 0 };

	ck_assert_ptr_nonnull(to);
	ck_assert_msg(sheet(to, &w->t, form, &err) == STATUS_OK, "%s", err.text);
	fclose(to);
	ck_assert_uint_eq(strlen(text), size);
	return text;
}

char *sheet_unfolded(const struct worked *w, sheet_writer *sheet)
{
	char *text = sheet_written(w, sheet, SHEET_TEXT), *to = text;

	for (const char *from = text; *from;) {
		bool fold = strncmp(from, "\n    ", 5) == 0;

		*to++ = fold ? ' ' : *from;
		from += fold ? 5 : 1;
	}
	*to = '\0';
	return text;
}

int csv_rows(const char *csv, int *width)
{
	int rows = 0, fields = 1;

	*width = 0;
	for (const char *c = csv; *c; c++) {
		if (*c == '"') {
			for (c++; *c != '"' || c[1] == '"'; c++) {
				ck_assert_msg(*c, "a quote is not closed");
				c += *c == '"';
			}
			ck_assert(c[1] == ',' || c[1] == '\r');
		} else if (*c == ',') {
			fields++;
		} else if (*c == '\r') {
			ck_assert_int_eq(c[1], '\n');
			c++;
			ck_assert(*width == 0 || *width == fields);
			*width = fields;
			rows++;
			fields = 1;
		} else {
			ck_assert_msg(*c != '\n', "a line ends without CR");
		}
	}
	ck_assert_int_eq(fields, 1);
	return rows;
}
