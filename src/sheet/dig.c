/* dig.c - the sheet of ground and dig: what lies there, what is dug and filled, and the layers that
 * come in. The take-off says the same in fewer lines. */
#include "csv_row.h"
#include "form.h"
#include "slabwright/json.h"

#include <inttypes.h>
#include <math.h>

static double percent(int64_t ppm)
{
	return (double)ppm / 10000;
}

static const char *ground_words(enum ground_kind kind)
{
	static const char *const words[] = { "none", "one: the ground is taken as level",
		"on one line: the ground is taken as level across it",
		"the ground runs straight between three of them" };

	return words[kind];
}

/* --- text --- */

static void put_at(FILE *to, const char *label, double depth, double x_um, double y_um)
{
	char mm[40], x[40], y[40];

	text_line(to, label, "%s mm, at x %s, y %s",
	        mm_print(mm, sizeof mm, llround(depth / 1000) * 1000),
	        length_print(x, sizeof x, llround(x_um / 1000) * 1000, UNIT_M),
	        length_print(y, sizeof y, llround(y_um / 1000) * 1000, UNIT_M));
}

static void put_ground(FILE *to, const struct takeoff *t)
{
	const struct earth_result *e = &t->earth;
	char mm[40];

	text_line(to, "ground levels", "%zu (%s)", e->ground.level_count,
	        ground_words(e->ground.kind));
	text_line(to, "area", "%.3f m2 of paving, %.3f m2 of over-dig", e->area_m2, e->over_dig_m2);
	if (e->over_dig_m2 > 0)
		text_line(to, "over-dig",
		        "%s mm beyond the outline, but not beyond house walls and existing paving",
		        mm_print(mm, sizeof mm, t->plan.site.earth.over_dig_um));
	if (e->extrapolated_m2 > 0)
		text_line(to, "extrapolated",
		        "%.3f m2 lie beyond the levels, up to %.2f m; there the level of the "
		        "nearest point among them is taken. Measure levels farther out.",
		        e->extrapolated_m2, e->farthest_um * 1e-6);
}

static void put_volumes(FILE *to, const struct takeoff *t)
{
	const struct earth_result *e = &t->earth;
	char mm[40];

	fputs("\nIn the ground\n", to);
	text_line(to, "topsoil, kept apart", "%.3f m3 (%s mm all over)", e->topsoil_m3,
	        mm_print(mm, sizeof mm, t->plan.site.earth.topsoil_um));
	text_line(to, "to dig under it", "%.3f m3", e->cut_m3);
	text_line(to, "to fill", "%.3f m3, compacted", e->fill_m3);
	text_line(to, "of topsoil and dig, beyond the outline", "%.3f m3", e->over_dig_m3);
	if (e->deepest_um > 0)
		put_at(to, "deepest", e->deepest_um, e->deepest_x_um, e->deepest_y_um);
	if (e->highest_um > 0)
		put_at(to, "highest fill", e->highest_um, e->highest_x_um, e->highest_y_um);
}

static void put_loose(FILE *to, const struct takeoff *t)
{
	const struct earth_result *e = &t->earth;
	const struct plan_earth *p = &t->plan.site.earth;

	fprintf(to, "\nLoose (bulking %g %% of the volume in the ground)\n",
	        percent(p->bulking_ppm));
	text_line(to, "topsoil", "%.3f m3", e->topsoil_loose_m3);
	text_line(to, "dug", "%.3f m3", e->cut_loose_m3);
	text_line(to, "for the fill", "%.3f m3 (it loses %g %% of that when compacted)",
	        e->fill_loose_m3, percent(p->compaction_ppm));
	if (e->fill_m3 > 0 && e->cut_m3 > 0)
		text_line(to, "if what is dug serves as fill", "%.3f m3 left over, %.3f m3 missing",
		        e->surplus_loose_m3, e->missing_loose_m3);
}

static void put_part(FILE *to, const struct earth_part *p)
{
	char mm[40];

	fputs("  ", to);
	sheet_put_text(to, p->name);
	fprintf(to,
	        ": %.3f m2, formation %s mm under the surface; topsoil %.3f, dig %.3f, fill %.3f "
	        "m3\n",
	        p->area_m2, mm_print(mm, sizeof mm, llround(p->depth_um)), p->topsoil_m3, p->cut_m3,
	        p->fill_m3);
}

static void put_layer(FILE *to, const char *name, const struct earth_layer *l)
{
	char mm[40];

	text_line(to, name, "%.3f m3, %s mm on %.3f m2", l->volume_m3,
	        mm_print(mm, sizeof mm, l->depth_um), l->area_m2);
}

static void put_layers(FILE *to, const struct earth_result *e)
{
	fputs("\nLayers, compacted\n", to);
	put_layer(to, "sub-base", &e->sub_base);
	put_layer(to, "bedding", &e->bedding);
	if (e->unpaved_m3 > 0)
		text_line(to, "in zones without slabs",
		        "%.3f m3 between formation and surface, to be filled with what goes there",
		        e->unpaved_m3);
}

void text_dig(FILE *to, const struct takeoff *t)
{
	text_title(to, t, "Dig");
	put_ground(to, t);
	put_volumes(to, t);
	put_loose(to, t);
	fputs("\nBy part\n", to);
	for (size_t i = 0; i < t->earth.part_count; i++)
		put_part(to, &t->earth.parts[i]);
	put_layers(to, &t->earth);
	fputs("\nCautions\n", to);
	sheet_cautions(t, text_caution, to);
}

void text_dig_lines(FILE *to, const struct takeoff *t)
{
	const struct earth_result *e = &t->earth;

	fputs("\nGround\n", to);
	if (!e->ready) {
		fputs("  dig: not worked out: ", to);
		sheet_put_text(to, e->fault.text);
		fputc('\n', to);
	} else {
		text_line(to, "dig", "%.3f m3, and %.3f m3 of topsoil; fill %.3f m3", e->cut_m3,
		        e->topsoil_m3, e->fill_m3);
		text_line(to, "to cart away, loose", "%.3f m3, and %.3f m3 of topsoil",
		        e->cut_loose_m3, e->topsoil_loose_m3);
		if (e->extrapolated_m2 > 0)
			text_line(to, "extrapolated", "%.3f m2 lie beyond the ground levels",
			        e->extrapolated_m2);
	}
	put_layer(to, "sub-base, compacted", &e->sub_base);
	put_layer(to, "bedding, compacted", &e->bedding);
}

/* --- CSV --- */

static void caution_row(void *context, const char *text)
{
	text_row(context, "caution", "", text);
}

static void part_rows(struct row *r, const struct earth_part *p)
{
	real_row(r, p->name, "area", p->area_m2, "m2");
	mm_row(r, p->name, "formation under the surface", p->depth_um);
	real_row(r, p->name, "topsoil", p->topsoil_m3, "m3");
	real_row(r, p->name, "dig", p->cut_m3, "m3");
	real_row(r, p->name, "fill", p->fill_m3, "m3");
}

void csv_dig_rows(struct row *r, const struct takeoff *t)
{
	const struct earth_result *e = &t->earth;
	const struct {
		const char *section, *figure;
		double value;
		const char *unit;
	} rows[] = {
		{ "dig", "area of paving", e->area_m2, "m2" },
		{ "dig", "area of over-dig", e->over_dig_m2, "m2" },
		{ "dig", "extrapolated area", e->extrapolated_m2, "m2" },
		{ "in the ground", "topsoil", e->topsoil_m3, "m3" },
		{ "in the ground", "dig", e->cut_m3, "m3" },
		{ "in the ground", "fill, compacted", e->fill_m3, "m3" },
		{ "in the ground", "of topsoil and dig beyond the outline", e->over_dig_m3, "m3" },
		{ "loose", "topsoil", e->topsoil_loose_m3, "m3" },
		{ "loose", "dig", e->cut_loose_m3, "m3" },
		{ "loose", "for the fill", e->fill_loose_m3, "m3" },
		{ "loose", "left over if dug soil serves as fill", e->surplus_loose_m3, "m3" },
		{ "loose", "missing if dug soil serves as fill", e->missing_loose_m3, "m3" },
	};

	for (size_t i = 0; e->ready && i < sizeof rows / sizeof *rows; i++)
		real_row(r, rows[i].section, rows[i].figure, rows[i].value, rows[i].unit);
	if (!e->ready)
		text_row(r, "dig", "not worked out", e->fault.text);
	real_row(r, "layer, compacted", "sub-base", e->sub_base.volume_m3, "m3");
	real_row(r, "layer, compacted", "bedding", e->bedding.volume_m3, "m3");
	real_row(r, "layer, compacted", "in zones without slabs", e->unpaved_m3, "m3");
}

void csv_dig(FILE *to, const struct takeoff *t)
{
	const struct earth_result *e = &t->earth;
	struct row r = { to, false };

	ROW_HEADER(&r, "section", "figure", "value", "unit");
	text_row(&r, "variant", "name", t->plan.name);
	count_row(&r, "ground", "levels", (int64_t)e->ground.level_count);
	mm_row(&r, "ground", "farthest beyond the levels", e->farthest_um);
	csv_dig_rows(&r, t);
	mm_row(&r, "deepest", "depth", e->deepest_um);
	mm_row(&r, "deepest", "x", e->deepest_x_um);
	mm_row(&r, "deepest", "y", e->deepest_y_um);
	mm_row(&r, "highest fill", "height", e->highest_um);
	mm_row(&r, "highest fill", "x", e->highest_x_um);
	mm_row(&r, "highest fill", "y", e->highest_y_um);
	for (size_t i = 0; i < e->part_count; i++)
		part_rows(&r, &e->parts[i]);
	sheet_cautions(t, caution_row, &r);
}

/* --- JSON --- */

static void put_extreme(struct json *j, const char *key, double depth, double x, double y)
{
	if (depth <= 0) {
		json_null(j, key);
		return;
	}
	json_object_tight(j, key);
	real_mm(j, "depth", depth);
	point_mm(j, "at", x, y);
	json_end(j);
}

static void put_json_layer(struct json *j, const char *key, const struct earth_layer *l)
{
	json_object_tight(j, key);
	json_mm(j, "depth", l->depth_um);
	json_real(j, "area_m2", tidy(l->area_m2));
	json_real(j, "volume_m3", tidy(l->volume_m3));
	json_end(j);
}

static void put_parts(struct json *j, const struct earth_result *e)
{
	json_array(j, "parts");
	for (size_t i = 0; i < e->part_count; i++) {
		const struct earth_part *p = &e->parts[i];

		json_object_tight(j, NULL);
		json_text(j, "name", p->name);
		json_bool(j, "over_dig", p->margin);
		real_mm(j, "depth", p->depth_um);
		json_real(j, "area_m2", tidy(p->area_m2));
		json_real(j, "topsoil_m3", tidy(p->topsoil_m3));
		json_real(j, "cut_m3", tidy(p->cut_m3));
		json_real(j, "fill_m3", tidy(p->fill_m3));
		json_end(j);
	}
	json_end(j);
}

static void put_json_volumes(struct json *j, const struct earth_result *e)
{
	json_object_tight(j, "in_ground");
	json_real(j, "topsoil_m3", tidy(e->topsoil_m3));
	json_real(j, "cut_m3", tidy(e->cut_m3));
	json_real(j, "fill_m3", tidy(e->fill_m3));
	json_real(j, "over_dig_m3", tidy(e->over_dig_m3));
	json_end(j);
	json_object_tight(j, "loose");
	json_real(j, "topsoil_m3", tidy(e->topsoil_loose_m3));
	json_real(j, "cut_m3", tidy(e->cut_loose_m3));
	json_real(j, "fill_m3", tidy(e->fill_loose_m3));
	json_real(j, "surplus_m3", tidy(e->surplus_loose_m3));
	json_real(j, "missing_m3", tidy(e->missing_loose_m3));
	json_end(j);
}

static void put_figures(struct json *j, const struct earth_result *e)
{
	static const char *const kinds[] = { "none", "one", "line", "triangles" };

	json_int(j, "levels", (int64_t)e->ground.level_count);
	json_text(j, "ground", kinds[e->ground.kind]);
	json_real(j, "area_m2", tidy(e->area_m2));
	json_real(j, "over_dig_m2", tidy(e->over_dig_m2));
	json_real(j, "extrapolated_m2", tidy(e->extrapolated_m2));
	real_mm(j, "farthest", e->farthest_um);
	put_json_volumes(j, e);
	put_extreme(j, "deepest", e->deepest_um, e->deepest_x_um, e->deepest_y_um);
	put_extreme(j, "highest_fill", e->highest_um, e->highest_x_um, e->highest_y_um);
	put_parts(j, e);
}

static void put_json_layers(struct json *j, const struct earth_result *e)
{
	json_object(j, "layers");
	put_json_layer(j, "sub_base", &e->sub_base);
	put_json_layer(j, "bedding", &e->bedding);
	json_real(j, "unpaved_m3", tidy(e->unpaved_m3));
	json_end(j);
}

void json_dig_object(struct json *j, const struct takeoff *t)
{
	json_object(j, "dig");
	json_bool(j, "ready", t->earth.ready);
	json_text(j, "note", t->earth.ready ? NULL : t->earth.fault.text);
	if (t->earth.ready)
		put_figures(j, &t->earth);
	put_json_layers(j, &t->earth);
	json_end(j);
}

static void put_caution(void *j, const char *text)
{
	json_text(j, NULL, text);
}

void json_dig(struct json *j, const struct takeoff *t)
{
	json_object(j, NULL);
	json_text(j, "variant", t->plan.name);
	put_figures(j, &t->earth);
	put_json_layers(j, &t->earth);
	json_array(j, "cautions");
	sheet_cautions(t, put_caution, j);
	json_end(j);
	json_end(j);
}
