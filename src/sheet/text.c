/* text.c - sheets for people: one figure a line, name before value, nothing that only columns tell.
 */
#include "form.h"

#include <inttypes.h>
#include <math.h>
#include <stdarg.h>

/* "  label: value", the value printed as told. */
void text_line(FILE *to, const char *label, const char *format, ...)
{
	va_list args;

	fprintf(to, "  %s: ", label);
	va_start(args, format);
	vfprintf(to, format, args);
	va_end(args);
	fputc('\n', to);
}

void text_heading(FILE *to, const struct plan *plan, const char *what)
{
	fprintf(to, "%s of variant \"", what);
	sheet_put_text(to, plan->name);
	fputs("\"\n\n", to);
}

void text_title(FILE *to, const struct takeoff *t, const char *what)
{
	text_heading(to, &t->plan, what);
}

/* Levels are read to the millimetre; a tenth more than suffices. */
static int64_t to_tenth_mm(double um)
{
	return llround(um / 100) * 100;
}

void text_line_mm(FILE *to, const char *label, double um)
{
	char mm[40];

	text_line(to, label, "%s mm", mm_print(mm, sizeof mm, llround(um)));
}

static void put_outline(FILE *to, const struct takeoff *t)
{
	size_t openings = t->plan.ring_count - 1;

	fputs("Outline\n", to);
	text_line(to, "area to pave", "%.3f m2", t->area_m2);
	text_line(to, "perimeter", "%.3f m", t->perimeter_m);
	if (openings)
		text_line(to, "openings", "%zu, with edges of %.3f m together", openings,
		        t->opening_edges_m);
}

static void put_slab(FILE *to, const struct plan_slab *s)
{
	struct slab_size size = slab_size(s);
	char l[40], w[40], d[40], j[40], wl[40], ww[40];

	fputs("  slab: ", to);
	if (*s->name) {
		sheet_put_text(to, s->name);
		fputs(", ", to);
	}
	fprintf(to, "%s x %s x %s mm (%s size), joint %s mm: the slab itself is %s x %s mm%s\n",
	        mm_print(l, sizeof l, s->length_um), mm_print(w, sizeof w, s->width_um),
	        mm_print(d, sizeof d, s->thickness_um),
	        s->size == SIZE_WORK ? "work" : "coordinating", mm_print(j, sizeof j, s->joint_um),
	        mm_print(wl, sizeof wl, size.length_um), mm_print(ww, sizeof ww, size.width_um),
	        s->directional ? "; directional" : "");
}

/* The slabs of a bond with several sizes. */
static void put_sizes(FILE *to, const struct section *f)
{
	const struct plan_slab *slab = &f->laying.slab;
	char l[40], w[40], d[40], j[40];

	text_line(to, "slabs", "%s mm thick, joint %s mm; the slabs themselves, without it:",
	        mm_print(d, sizeof d, slab->thickness_um), mm_print(j, sizeof j, slab->joint_um));
	for (int i = 0; i < f->laid.pattern.size_count; i++) {
		const struct size_count *n = &f->laid.of_size[i];
		const struct slab_kind *k = &f->laid.pattern.sizes[i];

		fprintf(to, "    %s x %s mm: %" PRId64 " whole, %" PRId64 " cut\n",
		        mm_print(l, sizeof l, k->length_um), mm_print(w, sizeof w, k->width_um),
		        n->whole, n->cut);
	}
}

/* Slab, bond and start of the field or of a zone. */
static void put_pattern(FILE *to, const struct section *f)
{
	const struct plan_laying *l = &f->laying;
	char bond[80], turn[40], x[40], y[40];

	if (bond_of_one_slab(l->bond))
		put_slab(to, &l->slab);
	else
		put_sizes(to, f);
	text_line(to, "bond", "%s, turned %s degrees", bond_print(bond, sizeof bond, l),
	        angle_print(turn, sizeof turn, l->rotation_udeg));
	text_line(to, "start point", "x %s, y %s", length_print(x, sizeof x, l->start_x_um, UNIT_M),
	        length_print(y, sizeof y, l->start_y_um, UNIT_M));
}

static void put_slivers(FILE *to, const struct takeoff *t)
{
	const struct plan_laying *l = &t->plan.laying;
	char sliver[40];

	if (t->laid.stock_count > 1 && l->sliver_width_um == SLIVER_WIDTH_DEFAULT)
		text_line(to, "slivers among the cut",
		        "%" PRId64
		        " (narrower than a quarter of their slab's shorter side, 50 mm at least)",
		        t->laid.sliver);
	else
		text_line(to, "slivers among the cut", "%" PRId64 " (narrower than %s mm)",
		        t->laid.sliver,
		        mm_print(sliver, sizeof sliver,
		                sliver_width_um(l, t->laid.stocks[0].length_um,
		                        t->laid.stocks[0].width_um)));
}

/* The paving less the zones without slabs. */
static double paved_m2(const struct takeoff *t)
{
	double area = t->area_m2;

	for (size_t i = 0; i < t->laid.section_count; i++)
		area -= t->laid.sections[i].paved ? 0 : t->laid.sections[i].area_m2;
	return area;
}

static void put_laying(FILE *to, const struct takeoff *t)
{
	const struct plan_laying *l = &t->plan.laying;
	char x[40], fill[40];

	fputs("\nLaying\n", to);
	put_pattern(to, &t->laid.sections[0]);
	for (int i = 0; i < EDGE_KINDS; i++)
		if (l->edge_joint_um[i])
			text_line(to, "gap along edges", "%s mm at %s",
			        mm_print(x, sizeof x, l->edge_joint_um[i]),
			        edge_kind_name((enum edge_kind)i));
	text_line(to, "whole slabs", "%" PRId64, t->laid.whole);
	text_line(to, "cut pieces", "%" PRId64, t->laid.cut);
	put_slivers(to, t);
	text_line(to, "made up in the joint", "%" PRId64 " (narrower than %s mm)", t->laid.made_up,
	        mm_print(fill, sizeof fill, l->fill_width_um));
	text_line(to, "pieces cover", "%.3f m2, joints the other %.3f m2", t->laid.pieces_area_m2,
	        paved_m2(t) - t->laid.pieces_area_m2);
}

static void put_counts(FILE *to, const struct section *s)
{
	text_line(to, "area", "%.3f m2", s->area_m2);
	if (s->paved)
		text_line(to, "slabs",
		        "%" PRId64 " whole, %" PRId64 " cut pieces, %" PRId64 " of them slivers",
		        s->laid.whole, s->laid.cut, s->laid.sliver);
	else
		text_line(to, "slabs", "none");
}

static void put_border(FILE *to, const struct takeoff *t, const struct section *s)
{
	const struct plan_border *b = &t->plan.borders[s->number];
	char words[120], mm[40];

	text_line(to, "laid as", "%s", border_print(words, sizeof words, b));
	put_counts(to, s);
	if (s->curved)
		text_line(to, "on the curve", "joints would open to %s mm at the wide end; %s",
		        mm_print(mm, sizeof mm, llround(s->wide_joint_um / 100) * 100),
		        s->wedges ? "so every slab is cut to a wedge" : "slabs stay whole");
}

static void put_zone(FILE *to, const struct section *s)
{
	char level[40];

	if (s->paved)
		put_pattern(to, s);
	put_counts(to, s);
	if (s->level_um)
		text_line(to, "level", "%s mm %s the surface around it",
		        mm_print(level, sizeof level, s->level_um < 0 ? -s->level_um : s->level_um),
		        s->level_um < 0 ? "under" : "over");
	text_line(to, "edges within the paving", "%.3f m", s->shared_m);
}

/* Border courses and zones, and what they leave for the field. */
static void put_sections(FILE *to, const struct takeoff *t)
{
	if (t->laid.section_count == 1)
		return;
	for (size_t i = 0; i < t->laid.section_count; i++) {
		const struct section *s = &t->laid.sections[i];

		fputs("\nPart of the paving: ", to);
		sheet_put_text(to, s->name);
		fputc('\n', to);
		if (s->kind == SECTION_FIELD)
			put_counts(to, s);
		else if (s->kind == SECTION_BORDER)
			put_border(to, t, s);
		else
			put_zone(to, s);
	}
}

void text_proof(FILE *to, const struct cutplan *c)
{
	text_line(to, "slabs for the cuts", "%zu", c->slabs);
	if (c->slabs <= c->bound)
		text_line(to, "proof", "least possible (%s)", c->reason);
	else
		text_line(to, "proof",
		        "no plan needs fewer than %zu (%s); this one may be over by %zu", c->bound,
		        c->reason, c->slabs - c->bound);
}

static void line_money(FILE *to, const char *label, int64_t minor)
{
	char money[40];

	if (minor >= 0)
		text_line(to, label, "%s", money_print(money, sizeof money, minor));
}

static void put_order_sizes(FILE *to, const struct order *o)
{
	char l[40], w[40];

	if (o->packs)
		text_line(to, "packs of the mix", "%" PRId64, o->packs);
	for (size_t i = 0; i < o->line_count; i++) {
		const struct order_line *s = &o->lines[i];

		fputs("    ", to);
		if (*s->slab->name) {
			sheet_put_text(to, s->slab->name);
			fputs(", ", to);
		}
		fprintf(to, "%s x %s mm: %" PRId64 " (%" PRId64 " needed, %" PRId64 " for breakage",
		        mm_print(l, sizeof l, s->length_um), mm_print(w, sizeof w, s->width_um),
		        s->slabs, s->needed, s->allowance);
		if (s->left_over)
			fprintf(to, ", %" PRId64 " left over of the packs", s->left_over);
		fputs(")\n", to);
	}
}

static void put_order(FILE *to, const struct takeoff *t)
{
	const struct order *o = &t->order;
	int64_t packed = o->slabs - o->needed - o->allowance;
	char words[120];

	fputs("\nOrder\n", to);
	text_line(to, "slabs needed", "%" PRId64 " (%" PRId64 " whole and %zu for the cuts)",
	        o->needed, t->laid.whole, t->cuts.slabs);
	text_line(to, "breakage allowance", "%" PRId64 " (%g %%, at least 1)", o->allowance,
	        (double)t->plan.laying.breakage_ppm / 10000);
	if (o->line_count == 1 && o->lines[0].slab->pack > 1 && !o->packs)
		text_line(to, "to fill whole packs", "%" PRId64 " more (%" PRId64 " in a pack)",
		        packed, o->lines[0].slab->pack);
	else if (packed && o->line_count > 1 && !o->packs)
		text_line(to, "to fill whole packs", "%" PRId64 " more", packed);
	text_line(to, "slabs to order", "%" PRId64, o->slabs);
	if (o->line_count > 1)
		put_order_sizes(to, o);
	text_line(to, "rule of thumb (area over slab, plus 5 %)", "%" PRId64 ", which is %s",
	        o->rule_of_thumb, thumb_print(words, sizeof words, o));
	line_money(to, "price of the slabs", o->price_minor);
	line_money(to, "price by the rule of thumb", o->thumb_price_minor);
	if (o->mass_kg > 0)
		text_line(to, "mass", "%s%.1f kg a slab, %.0f kg together",
		        o->line_count > 1 ? "up to " : "", o->slab_mass_kg, o->mass_kg);
	else
		text_line(to, "mass", "not known, as the slab's density is not");
}

/* The units of one kind of edge, and how good their cut plan is. */
static void put_units(FILE *to, const struct takeoff *t, const struct edging_line *e)
{
	char mm[40];

	sheet_put_text(to, *e->unit_name ? e->unit_name : "unit");
	fprintf(to,
	        " of %s mm: %" PRId64 " to buy (%" PRId64 " laid whole, %" PRId64 " cut piece%s",
	        mm_print(mm, sizeof mm, e->unit_um), e->units, e->whole, e->cut,
	        e->cut == 1 ? "" : "s");
	if (e->units <= e->bound)
		fputs("; least possible)", to);
	else
		fprintf(to, "; may be over by %" PRId64 ")", e->units - e->bound);
	if (e->kind == EDGE_PLANTER)
		fputs(" for each course, as many as you build", to);
	if (t->plan.edging[e->kind].mitred)
		fputs("; corners mitred, pieces measured along their longer side", to);
	mm_print(mm, sizeof mm, e->least_um);
	if (e->shared)
		fprintf(to,
		        "; on %" PRId64 " edge%s the last whole unit is cut too, so that no piece "
		        "is shorter than %s mm",
		        e->shared, e->shared == 1 ? "" : "s", mm);
	if (e->too_short)
		fprintf(to, "; %" PRId64 " cut piece%s shorter than %s mm", e->too_short,
		        e->too_short == 1 ? " is" : "s are", mm);
	if (e->corner_pieces)
		fprintf(to, "; and %zu corner piece%s of %s mm", e->corner_pieces,
		        e->corner_pieces == 1 ? "" : "s",
		        mm_print(mm, sizeof mm, t->plan.edging[e->kind].corner_um));
	if (e->no_room)
		fprintf(to, "; on %zu edge%s corner pieces have to be cut", e->no_room,
		        e->no_room == 1 ? "" : "s");
}

static void put_edging(FILE *to, const struct takeoff *t)
{
	fputs("\nEdges by kind\n", to);
	for (size_t i = 0; i < t->edging.count; i++) {
		const struct edging_line *e = &t->edging.lines[i];

		fprintf(to, "  %s: %.3f m on %zu edge%s", edge_kind_name(e->kind), e->length_m,
		        e->edges, e->edges == 1 ? "" : "s");
		if (e->unit_um) {
			fputs("; ", to);
			put_units(to, t, e);
		}
		fputc('\n', to);
	}
}

void text_fall(FILE *to, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;
	char fall[80], turn[40];

	if (!s->has_plane) {
		text_line(to, "fall",
		        "none is set, so there are no levels and no water is followed; set a fall "
		        "first");
		return;
	}
	for (size_t i = 0; i < t->plan.surface.count; i++) {
		const struct plan_plane *p = &t->plan.surface.planes[i];
		char label[40] = "fall";

		if (t->plan.surface.count > 1)
			snprintf(label, sizeof label, "fall of plane %zu", i + 1);
		text_line(to, label,
		        "%s, water runs %s on the plan (%s degrees from the right, anticlockwise)",
		        fall_print(fall, sizeof fall, p->fall_um_per_m),
		        compass_name(p->toward_udeg),
		        angle_print(turn, sizeof turn, p->toward_udeg));
	}
}

void text_warnings(FILE *to, const struct surface_result *s)
{
	if (!s->warning_count && s->has_plane)
		fputs("  no warnings\n", to);
	for (size_t i = 0; i < s->warning_count; i++) {
		fputs("  warning: ", to);
		sheet_put_text(to, s->warnings[i].text);
		fputc('\n', to);
	}
}

static void put_fixed(FILE *to, const struct takeoff *t)
{
	double d = t->surface.fixed_difference_um;
	const char *name = t->plan.surface.fixed_name;
	char mm[40];

	fputs("  surface at ", to);
	sheet_put_text(to, *name ? name : "the fixed point");
	fprintf(to, ": %s mm %s it\n", mm_print(mm, sizeof mm, llround(fabs(d))),
	        d < 0 ? "below" : "above");
}

static void put_levels(FILE *to, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;
	char level[40];

	text_fall(to, t);
	if (!s->has_plane)
		return;
	text_line(to, "highest", "%s at level %s mm", s->highest_name,
	        mm_print(level, sizeof level, to_tenth_mm(s->highest_um)));
	text_line(to, "lowest", "%s at level %s mm", s->lowest_name,
	        mm_print(level, sizeof level, to_tenth_mm(s->lowest_um)));
	if (s->has_fixed)
		put_fixed(to, t);
}

static void put_rules(FILE *to, const struct rules *r)
{
	fputs("\nRule set: ", to);
	sheet_put_text(to, r->name);
	if (r->place && *r->place) {
		fputs(", ", to);
		sheet_put_text(to, r->place);
	}
	if (r->date && *r->date) {
		fputs(", ", to);
		sheet_put_text(to, r->date);
	}
	fputc('\n', to);
}

void text_caution(void *to, const char *text)
{
	fputs("  ", to);
	sheet_put_text(to, text);
	fputc('\n', to);
}

void text_takeoff(FILE *to, const struct takeoff *t)
{
	text_title(to, t, "Take-off");
	put_outline(to, t);
	put_laying(to, t);
	put_sections(to, t);
	fputs("\nCut plan\n", to);
	text_proof(to, &t->cuts);
	put_order(to, t);
	put_edging(to, t);
	text_put_kerbs(to, t);
	text_put_planters(to, t);
	text_put_flights(to, t);
	fputs("\nSurface and water\n", to);
	put_levels(to, t);
	text_warnings(to, &t->surface);
	text_dig_lines(to, t);
	put_rules(to, &t->rules);
	fputs("\nCautions\n", to);
	sheet_cautions(t, text_caution, to);
}

static void put_point(FILE *to, const struct level_point *p)
{
	char x[40], y[40], level[40], dug[40], staff[40];

	fputs("  ", to);
	sheet_put_text(to, p->name);
	fprintf(to, ": level %s mm, formation %s mm",
	        mm_print(level, sizeof level, to_tenth_mm(p->level_um)),
	        mm_print(dug, sizeof dug, to_tenth_mm(p->formation_um)));
	if (p->has_staff)
		fprintf(to, ", staff %s mm",
		        mm_print(staff, sizeof staff, to_tenth_mm(p->staff_um)));
	fprintf(to, "; at x %s, y %s\n", length_print(x, sizeof x, p->x_um, UNIT_M),
	        length_print(y, sizeof y, p->y_um, UNIT_M));
}

void text_levels(FILE *to, const struct takeoff *t)
{
	const struct plan_ground *g = &t->plan.ground;

	text_title(to, t, "Levels");
	fputs("  Levels count from the job's datum, 0.\n", to);
	if (g->has_instrument) {
		text_line_mm(to, "benchmark", (double)g->benchmark_um);
		text_line_mm(to, "backsight", (double)g->backsight_um);
		text_line_mm(to, "height of instrument", (double)instrument_height_um(g));
	} else {
		fputs("  No instrument is set up, so there are no staff readings.\n", to);
	}
	put_levels(to, t);
	if (t->level_count)
		fputs("\nPoints\n", to);
	for (size_t i = 0; i < t->level_count; i++)
		put_point(to, &t->levels[i]);
	fputs("\nCautions\n", to);
	sheet_cautions(t, text_caution, to);
}
