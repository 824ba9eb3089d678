/* plan_doc.c - the exchange format's members, one table an object: a variant, its surface, ground
 * and edging. */
#include "plan_doc.h"

#include "plan_rows.h"
#include "slabwright/text.h"

#include <ctype.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

/* --- surface --- */

static const char *envelope_word(int value)
{
	return envelope_name((enum envelope)value);
}

static const struct words envelope_words = { envelope_word, envelope_parse, 2, "envelope" };

#define PLANE(member) .at = offsetof(struct plan_plane, member)
static const struct field plane_fields[] = {
	{ "x", FIELD_MM, FIELD_ALWAYS, PLANE(x_um) },
	{ "y", FIELD_MM, FIELD_ALWAYS, PLANE(y_um) },
	{ "level", FIELD_MM, FIELD_ALWAYS, PLANE(level_um) },
	{ "toward", FIELD_DEGREES, FIELD_ALWAYS, PLANE(toward_udeg) },
	{ "fall", FIELD_THOUSAND, FIELD_ALWAYS, PLANE(fall_um_per_m) },
};
static const struct shape plane_shape = SHAPE(plane_fields);
static const struct list plane_list =
        LIST(plane_shape, struct plan_surface, SURFACE_PLANES, planes, count);

#define SURFACE(member) .at = offsetof(struct plan_surface, member)
static const struct field fixed_fields[] = {
	{ "name", FIELD_TEXT, 0, SURFACE(fixed_name) },
	{ "x", FIELD_MM, FIELD_REQUIRED, SURFACE(fixed_x_um) },
	{ "y", FIELD_MM, FIELD_REQUIRED, SURFACE(fixed_y_um) },
	{ "level", FIELD_MM, FIELD_REQUIRED, SURFACE(fixed_level_um) },
};
static const struct shape fixed_shape = SHAPE(fixed_fields);
static const struct plan_surface surface_defaults = { .envelope = ENVELOPE_MAX, .fixed_name = "" };

static enum status fixed_read(struct reader *r, const struct doc *from, void *to)
{
	((struct plan_surface *)to)->has_fixed = true;
	return doc_read(r, from, &fixed_shape, to);
}

static void fixed_write(struct json *j, const char *name, const void *from)
{
	if (!((const struct plan_surface *)from)->has_fixed)
		return;
	json_object_tight(j, name);
	doc_write(j, &fixed_shape, from, &surface_defaults);
	json_end(j);
}

static enum status dpc_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan_surface *f = to;

	if (from->type != DOC_NUMBER)
		return doc_refuse(r, from, "not a number; give its level in millimetres, like 150");
	if (!(fabs(from->number) <= (double)COORD_LIMIT_UM / 1e3))
		return doc_refuse(r, from,
		        "%.10g mm is out of reach; stay within 1000000 mm (1 km)", from->number);
	f->has_dpc = true;
	f->dpc_um = llround(from->number * 1e3);
	return STATUS_OK;
}

static void dpc_write(struct json *j, const char *name, const void *from)
{
	const struct plan_surface *f = from;

	if (f->has_dpc)
		json_mm(j, name, f->dpc_um);
}

static const struct field surface_fields[] = {
	{ "envelope", FIELD_WORD, FIELD_ALWAYS, SURFACE(envelope), &envelope_words },
	{ "planes", FIELD_LIST, FIELD_ALWAYS | FIELD_TIGHT, SURFACE(planes), .list = &plane_list },
	{ "fixed", FIELD_OWN, 0, 0, .read = fixed_read, .write = fixed_write },
	{ "damp_proof_course", FIELD_OWN, 0, 0, .read = dpc_read, .write = dpc_write },
};
static const struct shape surface_shape = SHAPE(surface_fields);

enum status surface_read(struct reader *r, const struct doc *from, void *to)
{
	return doc_read(r, from, &surface_shape, to);
}

void surface_write(struct json *j, const char *name, const void *from)
{
	const struct plan_surface *f = from;

	if (!f->count && !f->has_fixed && !f->has_dpc && f->envelope == ENVELOPE_MAX)
		return;
	json_object(j, name);
	doc_write(j, &surface_shape, f, &surface_defaults);
	json_end(j);
}

/* --- ground --- */

#define GROUND(member) .at = offsetof(struct plan_ground, member)
enum { LAYERS = 2 }; /* the first fields; the others are there or not, together */
static const struct field ground_fields[] = {
	{ "bedding", FIELD_MM, FIELD_ALWAYS, GROUND(bedding_um) },
	{ "sub_base", FIELD_MM, FIELD_ALWAYS, GROUND(sub_base_um) },
	{ "benchmark", FIELD_MM, FIELD_ALWAYS, GROUND(benchmark_um) },
	{ "backsight", FIELD_MM, FIELD_ALWAYS, GROUND(backsight_um) },
};
static const struct shape ground_shape = SHAPE(ground_fields);
static const struct shape layers_shape = { ground_fields, LAYERS };

enum status ground_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan_ground *g = to;
	enum status st = doc_read(r, from, &ground_shape, to);

	return st == STATUS_OK ? doc_both(r, from, "benchmark", "backsight", &g->has_instrument)
	                       : st;
}

void ground_write(struct json *j, const char *name, const void *from)
{
	const struct plan_ground *g = from;
	struct plan d;

	plan_init(&d);
	if (g->bedding_um == d.ground.bedding_um && g->sub_base_um == d.ground.sub_base_um &&
	        !g->has_instrument)
		return;
	json_object_tight(j, name);
	doc_write(j, g->has_instrument ? &ground_shape : &layers_shape, g, &d.ground);
	json_end(j);
}

/* --- edging --- */

static const char *profile_word(int value)
{
	return edging_profile_name((enum edging_profile)value);
}

static const struct words profile_words = { profile_word, edging_profile_parse, 3,
	"profile of a unit" };

#define EDGING(member) .at = offsetof(struct edging_doc, member)
static const struct field edging_fields[] = {
	{ "kind", FIELD_WORD, FIELD_REQUIRED, EDGING(kind), &kind_words },
	{ "name", FIELD_TEXT, 0, EDGING(edging.name) },
	{ "unit", FIELD_MM, FIELD_REQUIRED, EDGING(edging.unit_um) },
	{ "joint", FIELD_MM, FIELD_ALWAYS, EDGING(edging.joint_um) },
	{ "depth", FIELD_MM, 0, EDGING(edging.depth_um) },
	{ "mitred", FIELD_BOOL, 0, EDGING(edging.mitred) },
	{ "least", FIELD_MM, 0, EDGING(edging.least_um) },
	{ "corner", FIELD_MM, 0, EDGING(edging.corner_um) },
	{ "profile", FIELD_WORD, 0, EDGING(edging.profile), &profile_words },
	{ "foot", FIELD_MM, 0, EDGING(edging.foot_um) },
	{ "height", FIELD_MM, 0, EDGING(edging.height_um) },
	{ "top", FIELD_MM, 0, EDGING(edging.top_um) },
	{ "bed", FIELD_WORD, 0, EDGING(edging.bed), &bed_words },
	{ "cement", FIELD_WHOLE, 0, EDGING(edging.cement_kg_m3) },
	{ "strip", FIELD_MM, 0, EDGING(edging.strip_um) },
	{ "strip_beyond", FIELD_MM, 0, EDGING(edging.strip_beyond_um) },
	{ "haunch", FIELD_MM, 0, EDGING(edging.haunch_um) },
	{ "held", FIELD_MM, 0, EDGING(edging.held_um) },
	{ "haunch_both", FIELD_BOOL, 0, EDGING(edging.haunch_both) },
	{ "density", FIELD_WHOLE, 0, EDGING(edging.density_kg_m3) },
	{ "price", FIELD_MONEY, FIELD_POSITIVE, EDGING(edging.price_minor) },
};
const struct shape edging_shape = SHAPE(edging_fields);
const struct edging_doc edging_defaults = { .edging = { .name = "", .price_minor = -1 } };

static enum status edgings_read(struct reader *r, const struct doc *from, void *to)
{
	struct plan_edging *edging = to;
	bool given[EDGE_KINDS] = { false };
	enum status st = doc_want_array(r, from, EDGE_KINDS);

	for (const struct doc *d = from->first; st == STATUS_OK && d; d = d->next) {
		const char *place = doc_prefix(r, d);
		struct edging_doc e = edging_defaults;

		st = doc_read(r, d, &edging_shape, &e);
		if (st == STATUS_OK && given[e.kind])
			st = doc_refuse(r, d, "the kind \"%s\" comes twice; leave one",
			        edge_kind_name(e.kind));
		if (st == STATUS_OK)
			st = place ? edging_check(&e.edging, place, r->err) : error_memory(r->err);
		given[e.kind] = true;
		edging[e.kind] = e.edging;
	}
	return st;
}

void edging_write(
        struct json *j, const char *name, enum edge_kind kind, const struct plan_edging *e)
{
	struct edging_doc d = { kind, *e };

	json_object_tight(j, name);
	doc_write(j, &edging_shape, &d, &edging_defaults);
	json_end(j);
}

static void edgings_write(struct json *j, const char *name, const void *from)
{
	const struct plan_edging *edging = from;
	bool began = false;

	for (int i = 0; i < EDGE_KINDS; i++) {
		const struct edging_doc d = { edging_defaults.kind, edging[i] };

		if (doc_is_default(&edging_shape, &d, &edging_defaults))
			continue;
		if (!began)
			json_array(j, name);
		began = true;
		edging_write(j, NULL, (enum edge_kind)i, &edging[i]);
	}
	if (began)
		json_end(j);
}

/* --- variants --- */

enum status uuid_read(struct reader *r, const struct doc *from, void *to)
{
	static const char pattern[] = "hhhhhhhh-hhhh-hhhh-hhhh-hhhhhhhhhhhh";
	size_t n = from->type == DOC_TEXT ? strlen(from->text) : 0;
	char *uuid = arena_text(r->mem, n ? from->text : "");
	const char *text;

	if (!uuid)
		return error_memory(r->err);
	for (size_t i = 0; n == sizeof pattern - 1 && i < n; i++) {
		uuid[i] = (char)tolower((unsigned char)uuid[i]);
		if (pattern[i] == '-' ? uuid[i] != '-' : !isxdigit((unsigned char)uuid[i]))
			n = 0;
	}
	if (n != sizeof pattern - 1)
		return doc_refuse(r, from,
		        "not a UUID, like \"01234567-89ab-4cde-8f01-23456789abcd\"; leave it out "
		        "to get one");
	text = uuid;
	memcpy(to, &text, sizeof text);
	return STATUS_OK;
}

void uuid_write(struct json *j, const char *name, const void *from)
{
	const char *uuid;

	memcpy(&uuid, from, sizeof uuid);
	if (uuid[0])
		json_text(j, name, uuid);
}

enum status notes_read(struct reader *r, const struct doc *from, void *to)
{
	const char *text = from->type == DOC_TEXT ? from->text : NULL;
	struct error why;

	if (!text)
		return doc_refuse(r, from, "not a text; put it between quotes");
	if (notes_check(text, "notes", &why) != STATUS_OK)
		return doc_refuse(r, from, "%s", why.text + strlen("notes: "));
	memcpy(to, &text, sizeof text);
	return STATUS_OK;
}

void notes_write(struct json *j, const char *name, const void *from)
{
	uuid_write(j, name, from); /* a text too */
}

#define VARIANT(member) .at = offsetof(struct variant_doc, member)
static const struct field variant_fields[] = {
	{ "name", FIELD_TEXT, FIELD_REQUIRED, VARIANT(plan.name) },
	{ "uuid", FIELD_OWN, 0, VARIANT(uuid), .read = uuid_read, .write = uuid_write },
	{ "notes", FIELD_OWN, 0, VARIANT(notes), .read = notes_read, .write = notes_write },
	{ "archived", FIELD_BOOL, 0, VARIANT(archived) },
	{ "rule_set", FIELD_TEXT, 0, VARIANT(plan.rule_set) },
	{ "outline", FIELD_OWN, 0, VARIANT(plan), .read = outline_read, .write = outline_write },
	{ "laying", FIELD_OWN, 0, VARIANT(plan.laying), .read = laying_read,
	        .write = laying_write },
	{ "borders", FIELD_LIST, 0, VARIANT(plan.borders), .list = &border_list,
	        .init = border_begin },
	{ "zones", FIELD_OWN, 0, VARIANT(plan), .read = zones_read, .write = zones_write },
	{ "surface", FIELD_OWN, 0, VARIANT(plan.surface), .read = surface_read,
	        .write = surface_write },
	{ "ground", FIELD_OWN, 0, VARIANT(plan.ground), .read = ground_read,
	        .write = ground_write },
	{ "edging", FIELD_OWN, 0, VARIANT(plan.edging), .read = edgings_read,
	        .write = edgings_write },
	BESIDE_FIELDS(offsetof(struct variant_doc, plan)),
};
const struct shape variant_shape = SHAPE(variant_fields);

void variant_doc_init(struct variant_doc *v)
{
	*v = (struct variant_doc){ .uuid = "", .notes = "" };
	plan_init(&v->plan);
}

void variant_doc_write(struct json *j, const struct variant_doc *v)
{
	struct variant_doc defaults;

	variant_doc_init(&defaults);
	json_object(j, NULL);
	doc_write(j, &variant_shape, v, &defaults);
	json_end(j);
}
