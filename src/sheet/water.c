/* water.c - where the water goes: catchments by edge, what channels and gullies take, where it
 * stands, the lines where planes meet, and where it all ends up; flows where rain is chosen. */
#include "csv_row.h"
#include "form.h"
#include "slabwright/json.h"

#include <math.h>

static const char *const end_names[] = { "edge", "channel", "gully", "pond" };
enum { LEAST_SHOWN_DIVISOR = 10000 };

/* Under a square centimetre: what rounding leaves at corners. */
static bool is_shown(double area_m2)
{
	return area_m2 * LEAST_SHOWN_DIVISOR >= 1;
}

static const char *channel_name(const struct takeoff *t, size_t i)
{
	const char *name = t->plan.water.channels[i].name;

	return name ? name : "";
}

static const char *gully_name(const struct takeoff *t, size_t i)
{
	const char *name = t->plan.water.gullies[i].name;

	return name ? name : "";
}

/* By the rational method, at the plan's rain; negative where none is chosen. */
static double flow_l_s(const struct takeoff *t, double area_m2)
{
	const struct drainage *d = &t->drainage;

	return d->has_rain ? runoff_flow_l_s(d->runoff, d->mm_per_h, area_m2) : -1;
}

/* "at 50.0 mm/h, of which 90 % run off (Place, 5 years)" or why there is no flow. */
static const char *flow_note(char *buf, size_t size, const struct takeoff *t)
{
	const struct drainage *d = &t->drainage;
	const struct plan_rain *rain = &t->plan.water.rain;

	if (!d->has_rain)
		return NO_RAIN;
	snprintf(buf, size, "flows are worked out at %.1f mm/h, of which %.0f %% run off (%s; %s)",
	        d->mm_per_h, d->runoff * 100, rain->name && *rain->name ? rain->name : "no name",
	        rain->source && *rain->source ? rain->source : "no source");
	return buf;
}

enum { NOTE_ROOM = 600 };

/* --- JSON --- */

static void put_flow(struct json *j, const struct takeoff *t, double area_m2)
{
	double flow = flow_l_s(t, area_m2);

	if (flow < 0)
		json_null(j, "flow_l_s");
	else
		json_real(j, "flow_l_s", tidy(flow));
}

static void put_catchment(struct json *j, const struct takeoff *t, const struct catchment *c)
{
	const struct plan_node *from, *to;

	json_object_tight(j, NULL);
	json_int(j, "edge", (int64_t)c->edge + 1);
	json_text(j, "kind", edge_kind_name(c->kind));
	json_real(j, "area_m2", tidy(c->area_m2));
	put_flow(j, t, c->area_m2);
	edge_nodes(&t->plan, c->edge, &from, &to);
	if (from) {
		point_mm(j, "from", (double)from->x_um, (double)from->y_um);
		point_mm(j, "to", (double)to->x_um, (double)to->y_um);
	}
	json_end(j);
}

static void put_collected(struct json *j, const struct takeoff *t, const struct collector *c)
{
	json_real(j, "area_m2", tidy(c->first.area_m2));
	json_real(j, "ends_m2", tidy(c->area_m2));
	put_flow(j, t, c->area_m2);
}

static void put_channel(struct json *j, const struct takeoff *t, size_t channel)
{
	const struct surface_result *s = &t->surface;

	json_object_tight(j, NULL);
	json_int(j, "channel", (int64_t)channel + 1);
	json_text(j, "name", channel_name(t, channel));
	put_collected(j, t, &s->channels[channel]);
	json_array_tight(j, "edges");
	for (size_t i = 0; i < s->catchment_count; i++)
		if (s->catchments[i].channel == (int64_t)channel + 1)
			put_catchment(j, t, &s->catchments[i]);
	json_end(j);
	json_end(j);
}

static void put_gully(struct json *j, const struct takeoff *t, size_t gully)
{
	const struct plan_gully *g = &t->plan.water.gullies[gully];

	json_object_tight(j, NULL);
	json_int(j, "gully", (int64_t)gully + 1);
	json_text(j, "name", gully_name(t, gully));
	point_mm(j, "at", (double)g->x_um, (double)g->y_um);
	put_collected(j, t, &t->surface.gullies[gully]);
	json_end(j);
}

static void put_pond(struct json *j, const struct pond *p)
{
	json_object_tight(j, NULL);
	json_text(j, "place", p->place);
	point_mm(j, "at", p->at.x, p->at.y);
	real_mm(j, "level", p->level_um);
	json_bool(j, "held", p->held);
	json_real(j, "area_m2", tidy(p->first.area_m2));
	json_real(j, "ends_m2", tidy(p->area_m2));
	json_end(j);
}

static void put_line(struct json *j, const struct surface_line *l)
{
	json_object_tight(j, NULL);
	json_text(j, "kind", line_kind_name(l->kind));
	json_array_tight(j, "planes");
	json_int(j, NULL, (int64_t)l->planes[0] + 1);
	json_int(j, NULL, (int64_t)l->planes[1] + 1);
	json_end(j);
	point_mm(j, "high", l->high.x, l->high.y);
	real_mm(j, "high_level", l->high_um);
	point_mm(j, "low", l->low.x, l->low.y);
	real_mm(j, "low_level", l->low_um);
	real_mm(j, "fall", l->fall_um_per_m);
	json_end(j);
}

static void put_part(struct json *j, const struct plan *plan, const struct surface_part *p)
{
	json_object_tight(j, NULL);
	json_int(j, "plane", (int64_t)p->plane + 1);
	json_real(j, "area_m2", tidy(p->area_m2));
	json_mm(j, "fall", plan->surface.planes[p->plane].fall_um_per_m);
	json_degrees(j, "toward", plan->surface.planes[p->plane].toward_udeg);
	json_end(j);
}

static void put_end(struct json *j, const struct water_end *e)
{
	json_text(j, "kind", end_names[e->kind]);
	json_int(j, "number", (int64_t)e->number + 1);
	json_real(j, "area_m2", tidy(e->area_m2));
}

static void put_ends(struct json *j, const struct surface_result *s)
{
	json_array(j, "ends");
	for (size_t i = 0; i < s->end_count; i++) {
		json_object_tight(j, NULL);
		put_end(j, &s->ends[i]);
		json_end(j);
	}
	json_end(j);
	json_array(j, "held");
	for (size_t i = 0; i < s->held_count; i++) {
		json_object_tight(j, NULL);
		json_int(j, "edge", (int64_t)s->held[i].edge + 1);
		json_object_tight(j, "end");
		put_end(j, &s->held[i].end);
		json_end(j);
		json_end(j);
	}
	json_end(j);
}

static void put_surface(struct json *j, const struct takeoff *t)
{
	const struct surface_shape *shape = &t->surface.shape;

	json_array(j, "planes");
	for (size_t i = 0; i < shape->part_count; i++)
		put_part(j, &t->plan, &shape->parts[i]);
	json_end(j);
	json_array(j, "lines");
	for (size_t i = 0; i < shape->line_count; i++)
		put_line(j, &shape->lines[i]);
	json_end(j);
}

void json_water(struct json *j, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;
	char note[NOTE_ROOM];

	json_object(j, NULL);
	json_array(j, "catchments");
	for (size_t i = 0; i < s->catchment_count; i++)
		if (!s->catchments[i].channel)
			put_catchment(j, t, &s->catchments[i]);
	json_end(j);
	json_array(j, "channels");
	for (size_t i = 0; i < s->channel_count; i++)
		put_channel(j, t, i);
	json_end(j);
	json_array(j, "gullies");
	for (size_t i = 0; i < s->gully_count; i++)
		put_gully(j, t, i);
	json_end(j);
	json_array(j, "ponds");
	for (size_t i = 0; i < s->pond_count; i++)
		put_pond(j, &s->ponds[i]);
	json_end(j);
	json_real(j, "drained_m2", tidy(s->drained_m2));
	json_real(j, "standing_m2", tidy(s->standing_m2));
	put_ends(j, s);
	put_surface(j, t);
	json_text(j, "note", flow_note(note, sizeof note, t));
	json_warnings(j, s);
	json_end(j);
}

/* --- text --- */

static void put_number(FILE *to, const char *what, size_t number, const char *name)
{
	fprintf(to, "  %s %zu", what, number + 1);
	if (*name) {
		fputs(" (", to);
		sheet_put_text(to, name);
		fputc(')', to);
	}
}

static void text_flow(FILE *to, const struct takeoff *t, double area_m2)
{
	double flow = flow_l_s(t, area_m2);

	if (flow >= 0)
		fprintf(to, ": %.2f l/s", flow);
}

static void text_collected(FILE *to, const struct takeoff *t, const struct collector *c)
{
	fprintf(to, " takes %.3f m2", c->first.area_m2);
	if (is_shown(c->area_m2 - c->first.area_m2))
		fprintf(to, ", and with what edges lead to it %.3f m2", c->area_m2);
	text_flow(to, t, c->area_m2);
	fputc('\n', to);
}

static void text_collectors(FILE *to, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;

	for (size_t i = 0; i < s->channel_count; i++) {
		put_number(to, "channel", i, channel_name(t, i));
		text_collected(to, t, &s->channels[i]);
	}
	for (size_t i = 0; i < s->gully_count; i++) {
		put_number(to, "gully", i, gully_name(t, i));
		text_collected(to, t, &s->gullies[i]);
	}
	for (size_t i = 0; i < s->pond_count; i++)
		if (is_shown(s->ponds[i].area_m2))
			fprintf(to, "  water from %.3f m2 stands at %s\n", s->ponds[i].area_m2,
			        s->ponds[i].place);
}

static void text_catchments(FILE *to, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;
	char words[64];

	for (size_t i = 0; i < s->catchment_count; i++) {
		const struct catchment *c = &s->catchments[i];

		fprintf(to, "  %s (%s) takes %.3f m2",
		        plan_edge_words(words, sizeof words, &t->plan, c->edge),
		        edge_kind_name(c->kind), c->area_m2);
		if (c->channel)
			fprintf(to, ", into channel %d", (int)c->channel);
		text_flow(to, t, c->area_m2);
		fputc('\n', to);
	}
}

static void text_end(FILE *to, const struct takeoff *t, const struct water_end *e)
{
	char words[64];

	if (e->kind == END_EDGE)
		fprintf(to, "leaves over %s\n",
		        plan_edge_words(words, sizeof words, &t->plan, e->number));
	else if (e->kind == END_POND)
		fprintf(to, "stands at %s\n", t->surface.ponds[e->number].place);
	else
		fprintf(to, "goes into %s %zu\n", end_names[e->kind], e->number + 1);
}

static void text_held(FILE *to, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;
	char words[64];

	for (size_t i = 0; i < s->held_count; i++) {
		if (!is_shown(s->held[i].end.area_m2))
			continue;
		fprintf(to, "  of what %s holds back, %.3f m2 ",
		        plan_edge_words(words, sizeof words, &t->plan, s->held[i].edge),
		        s->held[i].end.area_m2);
		text_end(to, t, &s->held[i].end);
	}
}

static void text_lines(FILE *to, const struct surface_shape *shape)
{
	static const char *const words[] = { "ridge of", "valley of", "change of fall between" };
	char fall[80], a[40], b[40], c[40], d[40];

	for (size_t i = 0; i < shape->line_count; i++) {
		const struct surface_line *l = &shape->lines[i];

		fprintf(to,
		        "  %s planes %zu and %zu: from x %s, y %s down to x %s, y %s, falls %s\n",
		        words[l->kind], l->planes[0] + 1, l->planes[1] + 1,
		        length_print(a, sizeof a, llround(l->high.x / 1000) * UM_PER_MM, UNIT_M),
		        length_print(b, sizeof b, llround(l->high.y / 1000) * UM_PER_MM, UNIT_M),
		        length_print(c, sizeof c, llround(l->low.x / 1000) * UM_PER_MM, UNIT_M),
		        length_print(d, sizeof d, llround(l->low.y / 1000) * UM_PER_MM, UNIT_M),
		        fall_print(fall, sizeof fall, llround(l->fall_um_per_m)));
	}
}

void text_water(FILE *to, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;
	char note[NOTE_ROOM];

	text_title(to, t, "Water");
	text_fall(to, t);
	if (!s->has_plane)
		return;
	text_lines(to, &s->shape);
	text_catchments(to, t);
	text_collectors(to, t);
	text_held(to, t);
	text_line(to, "drained together", "%.3f m2 of %.3f m2", s->drained_m2, t->area_m2);
	fputs("  flow: ", to);
	sheet_put_text(to, flow_note(note, sizeof note, t));
	fputc('\n', to);
	text_warnings(to, s);
}

/* --- CSV --- */

/* flow negative: none is known. */
static void csv_area(struct row *r, const char *record, size_t number, const char *kind,
        double area_m2, double flow, const char *text)
{
	row_text(r, record);
	row_int(r, (int64_t)number + 1);
	row_text(r, kind);
	row_real(r, area_m2, 6);
	if (flow < 0)
		row_empty(r);
	else
		row_real(r, flow, 6);
	row_text(r, text);
	row_end(r);
}

static void csv_warning(struct row *r, const struct warning *w)
{
	row_text(r, "warning");
	row_empty(r);
	row_text(r, warning_code_name(w->code));
	row_empty(r);
	row_empty(r);
	row_text(r, w->text);
	row_end(r);
}

void csv_water(FILE *to, const struct takeoff *t)
{
	const struct surface_result *s = &t->surface;
	struct row r = { to, false };
	const char *why = t->drainage.has_rain ? "" : NO_RAIN;

	ROW_HEADER(&r, "record", "number", "kind", "area_m2", "flow_l_s", "text");
	for (size_t i = 0; i < s->catchment_count; i++)
		if (!s->catchments[i].channel)
			csv_area(&r, "catchment", s->catchments[i].edge,
			        edge_kind_name(s->catchments[i].kind), s->catchments[i].area_m2,
			        flow_l_s(t, s->catchments[i].area_m2), why);
	for (size_t i = 0; i < s->channel_count; i++)
		csv_area(&r, "channel", i, channel_name(t, i), s->channels[i].first.area_m2,
		        flow_l_s(t, s->channels[i].area_m2), why);
	for (size_t i = 0; i < s->gully_count; i++)
		csv_area(&r, "gully", i, gully_name(t, i), s->gullies[i].first.area_m2,
		        flow_l_s(t, s->gullies[i].area_m2), why);
	for (size_t i = 0; i < s->pond_count; i++)
		csv_area(&r, "pond", i, s->ponds[i].held ? "held" : "low point",
		        s->ponds[i].first.area_m2, -1, s->ponds[i].place);
	for (size_t i = 0; i < s->end_count; i++)
		csv_area(&r, "end", s->ends[i].number, end_names[s->ends[i].kind],
		        s->ends[i].area_m2, flow_l_s(t, s->ends[i].area_m2), "");
	for (size_t i = 0; i < s->warning_count; i++)
		csv_warning(&r, &s->warnings[i]);
}
