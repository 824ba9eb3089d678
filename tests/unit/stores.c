/* stores.c - what the tests of the store share. */
#include "unit/stores.h"

#include "program.h"
#include "unit/beside.h"

#include <check.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct store *store_in_folder(const char *name)
{
	struct store *s = NULL;
	struct error err = { 0 };

	ck_assert_msg(store_open(&s, program_path(name), STORE_MAY_CREATE, getenv("SHARE"), &err) ==
	                      STATUS_OK,
	        "%s", err.text);
	return s;
}

int64_t empty_variant(struct store *s)
{
	int64_t client, job, variant = 0;
	struct error err = { 0 };

	ck_assert_msg(store_client_add(s, "C", &client, &err) == STATUS_OK, "%s", err.text);
	ck_assert_msg(store_job_add(s, client, "J", &job, &err) == STATUS_OK, "%s", err.text);
	ck_assert_msg(store_variant_add(s, job, "A", &variant, &err) == STATUS_OK, "%s", err.text);
	return variant;
}

static char *document(struct store *s, int64_t variant, bool one)
{
	struct arena mem = { 0 };
	struct store_place place;
	struct error err = { 0 };
	const char *json;
	char *copy;

	ck_assert_msg(store_place_of(s, variant, &mem, &place, &err) == STATUS_OK, "%s", err.text);
	ck_assert_msg(store_export(s, place.job, one ? variant : 0, &mem, &json, &err) == STATUS_OK,
	        "%s", err.text);
	copy = strdup(json);
	ck_assert_ptr_nonnull(copy);
	arena_free(&mem);
	return copy;
}

char *exported(struct store *s, int64_t variant)
{
	return document(s, variant, true);
}

char *exported_job(struct store *s, int64_t variant)
{
	return document(s, variant, false);
}

int64_t imported(struct store *s, const char *json)
{
	struct error err = { 0 };
	int64_t first;
	size_t added;

	ck_assert_msg(store_import(s, json, strlen(json), NULL, &first, &added, &err) == STATUS_OK,
	        "%s", err.text);
	return first;
}

/* For a program under test that is writing just then. */
enum { WAIT_MS = 10000 };

int64_t ask_file(const char *path, const char *sql)
{
	sqlite3 *db;
	sqlite3_stmt *q;
	int64_t number;

	ck_assert_int_eq(sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE, NULL), SQLITE_OK);
	sqlite3_busy_timeout(db, WAIT_MS);
	ck_assert_msg(
	        sqlite3_prepare_v2(db, sql, -1, &q, NULL) == SQLITE_OK, "%s", sqlite3_errmsg(db));
	ck_assert_int_eq(sqlite3_step(q), SQLITE_ROW);
	number = sqlite3_column_int64(q, 0);
	sqlite3_finalize(q);
	sqlite3_close(db);
	return number;
}

void change_file(const char *path, const char *sql)
{
	sqlite3 *db;

	ck_assert_int_eq(sqlite3_open(path, &db), SQLITE_OK);
	sqlite3_busy_timeout(db, WAIT_MS);
	ck_assert_msg(
	        sqlite3_exec(db, sql, NULL, NULL, NULL) == SQLITE_OK, "%s", sqlite3_errmsg(db));
	sqlite3_close(db);
}

void file_of_statements(const char *path, const char *const *statements, size_t count)
{
	static char script[16384];

	script[0] = '\0';
	for (size_t i = 0; i < count; i++) {
		ck_assert_uint_lt(strlen(script) + strlen(statements[i]), sizeof script);
		strcat(script, statements[i]);
	}
	change_file(path, script);
}

/* So many borders and channels can edges name. */
struct named {
	size_t borders, channels;
};

static struct named named_by(const struct plan *plan)
{
	return (struct named){ plan->border_count, plan->water.channel_count };
}

/* Its edge names one of those, or none. */
static struct plan_node random_node(struct chance *d, struct named of)
{
	return (struct plan_node){
		.x_um = chance_int(d, -COORD_LIMIT_UM, COORD_LIMIT_UM),
		.y_um = chance_int(d, -20000000, 20000000),
		.rise_um = chance_int(d, 0, 3) ? 0 : chance_int(d, -900000, 900000),
		.kind = (enum edge_kind)chance_int(d, 0, EDGE_KINDS - 1),
		.border = chance_int(d, 0, 1) ? chance_int(d, 0, (int64_t)of.borders) : 0,
		.channel = chance_int(d, 0, 1) ? chance_int(d, 0, (int64_t)of.channels) : 0,
	};
}

static struct plan_ring random_ring(struct chance *d, struct arena *mem, struct named of)
{
	struct plan_ring ring = { .count = (size_t)chance_int(d, 0, 7),
		.closed = chance_int(d, 0, 1) };

	ring.nodes = arena_alloc(mem, ring.count, sizeof *ring.nodes);
	ck_assert_ptr_nonnull(ring.nodes);
	for (size_t i = 0; i < ring.count; i++)
		ring.nodes[i] = random_node(d, of);
	return ring;
}

/* A row of slabs of one width, put anywhere the steps lead to: it tiles whatever its slant. */
static struct plan_repeat random_repeat(struct chance *d, struct arena *mem)
{
	struct plan_repeat r = { .name = chance_int(d, 0, 1) ? "Row \"of\" \xC3\xA9\n" : "" };

	r.count = (size_t)chance_int(d, 1, REPEAT_SLABS);
	r.slabs = arena_alloc(mem, r.count, sizeof *r.slabs);
	ck_assert_ptr_nonnull(r.slabs);
	r.step_y_um = chance_int(d, 20000, 3000000);
	r.slant_um = chance_int(d, -3000000, 3000000);
	for (size_t i = 0; i < r.count; i++) {
		r.slabs[i] = (struct repeat_slab){ .x_um = r.step_x_um,
			.length_um = chance_int(d, 20000, 600000),
			.width_um = r.step_y_um };
		r.step_x_um += r.slabs[i].length_um;
	}
	for (size_t i = 0; i < r.count; i++) {
		int64_t steps = chance_int(d, -1, 1);

		r.slabs[i].x_um += steps * r.slant_um;
		r.slabs[i].y_um += steps * r.step_y_um;
		if (r.slabs[i].x_um > r.step_x_um)
			r.slabs[i].x_um -= r.step_x_um;
	}
	return r;
}

static struct plan_mix random_mix(struct chance *d, struct arena *mem)
{
	struct plan_mix m = { .seed = chance_int(d, 0, 1000000000) };

	m.count = (size_t)chance_int(d, 1, MIX_SIZES);
	m.sizes = arena_alloc(mem, m.count, sizeof *m.sizes);
	ck_assert_ptr_nonnull(m.sizes);
	for (size_t i = 0; i < m.count; i++)
		m.sizes[i] = (struct mix_size){ (int64_t)(i + 1) * 100000 + chance_int(d, 0, 99999),
			chance_int(d, 20000, 5000000), chance_int(d, 1, 1000000) };
	return m;
}

static double random_offset(struct chance *d)
{
	static const double offsets[] = { 0, 0.5, 1.0 / 3, 2.0 / 3, 0.1, 1.0 / 7, 0.25 };

	return chance_int(d, 0, 1) ? offsets[chance_int(d, 0, 6)] : chance_real(d, 0, 1);
}

static void random_slab(struct chance *d, struct plan_slab *b)
{
	b->name = chance_int(d, 0, 1) ? "Grey \"flag\" \xC3\xA9\n" : "";
	b->length_um = chance_int(d, 120000, 1200000);
	b->width_um = chance_int(d, 120000, 1200000);
	b->joint_um = chance_int(d, 0, 12000);
	b->size = (enum size_meaning)chance_int(d, 0, 1);
	b->directional = chance_int(d, 0, 1);
	b->pack = chance_int(d, 1, 40);
	b->price_minor = chance_int(d, -1, 100000);
	b->density_kg_m3 = chance_int(d, 0, 1) * 2300;
}

static struct plan_laying random_laying(struct chance *d, struct arena *mem)
{
	struct plan plan;
	struct plan_laying *l = &plan.laying;

	plan_init(&plan);
	random_slab(d, &l->slab);
	l->bond = (enum bond)chance_int(d, 0, BONDS - 1);
	l->offset = random_offset(d);
	l->rotation_udeg = chance_int(d, -360000000, 360000000);
	l->start_x_um = chance_int(d, -9000000, 9000000);
	l->sliver_width_um = chance_int(d, 0, 1) ? SLIVER_WIDTH_DEFAULT : chance_int(d, 0, 90000);
	l->along = (enum along)chance_int(d, 0, 1);
	l->edges = (enum edge_rule)chance_int(d, 0, 1);
	l->breakage_ppm = chance_int(d, 0, 500000);
	if (l->bond == BOND_MIXED || !chance_int(d, 0, 3))
		l->repeat = random_repeat(d, mem);
	if (l->bond == BOND_COURSED_RANDOM || !chance_int(d, 0, 3))
		l->mix = random_mix(d, mem);
	for (int i = 0; i < EDGE_KINDS; i++)
		l->edge_joint_um[i] = chance_int(d, 0, 2) ? 0 : chance_int(d, 0, 100000);
	return *l;
}

static struct plan_surface random_surface(struct chance *d, struct arena *mem)
{
	struct plan_surface f = { .envelope = (enum envelope)chance_int(d, 0, 1),
		.fixed_name = "" };

	f.count = (size_t)chance_int(d, 0, 3);
	f.planes = arena_alloc(mem, f.count, sizeof *f.planes);
	ck_assert_ptr_nonnull(f.planes);
	for (size_t i = 0; i < f.count; i++)
		f.planes[i] = (struct plan_plane){ chance_int(d, -9000000, 9000000), 1, -150001,
			chance_int(d, 0, 360000000), chance_int(d, 0, 500000) };
	f.has_dpc = chance_int(d, 0, 1);
	if (f.has_dpc)
		f.dpc_um = chance_int(d, -2000000, 2000000);
	f.has_fixed = chance_int(d, 0, 1);
	if (f.has_fixed) {
		f.fixed_name = "path";
		f.fixed_level_um = chance_int(d, -500000, 500000);
	}
	return f;
}

/* No fewer borders than edges of the plan name. */
static void random_borders(
        struct chance *d, struct arena *mem, const struct plan *plan, struct edit *e)
{
	int64_t least = 0;

	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t k = 0; k < plan->rings[i].count; k++)
			if (plan->rings[i].nodes[k].border > least)
				least = plan->rings[i].nodes[k].border;
	e->border_count = (size_t)chance_int(d, least, least < 4 ? 4 : BORDERS);
	e->borders = arena_alloc(mem, e->border_count, sizeof *e->borders);
	ck_assert_ptr_nonnull(e->borders);
	for (size_t i = 0; i < e->border_count; i++) {
		struct plan_border *b = &e->borders[i];

		border_init(b);
		random_slab(d, &b->slab);
		b->lay = (enum border_lay)chance_int(d, 0, 1);
		b->deep = chance_int(d, 1, 2);
		b->offset = random_offset(d);
		b->corners = (enum border_corner)chance_int(d, 0, 1);
		b->begin = (enum border_begin)chance_int(d, 0, 1);
		b->widest_joint_um = chance_int(d, b->slab.joint_um, 100000);
	}
}

/* Now and then as many as there may be. */
static void random_zones(struct chance *d, struct arena *mem, struct edit *e)
{
	e->zone_count = (size_t)(chance_int(d, 0, 9) ? chance_int(d, 0, 4) : ZONES);
	e->zones = arena_alloc(mem, e->zone_count, sizeof *e->zones);
	ck_assert_ptr_nonnull(e->zones);
	for (size_t i = 0; i < e->zone_count; i++) {
		struct plan_zone *z = &e->zones[i];

		z->name = chance_int(d, 0, 1) ? "Path \"by\" \xC3\xA9\n" : "";
		z->ring = random_ring(
		        d, mem, (struct named){ BORDERS, CHANNELS }); /* they mean nothing */
		z->paved = chance_int(d, 0, 2);
		z->laying = random_laying(d, mem);
		z->level_um = chance_int(d, 0, 1) ? chance_int(d, -1000000, 1000000) : 0;
	}
}

static void random_node_edit(struct chance *d, const struct plan *plan, struct edit *e)
{
	const struct plan_ring *ring;

	e->ring = (size_t)chance_int(d, 0, (int64_t)plan->ring_count - 1);
	ring = &plan->rings[e->ring];
	e->type = (enum edit_type)chance_int(d, EDIT_NODE_INSERT, EDIT_NODE_SET);
	if (!ring->count)
		e->type = EDIT_NODE_INSERT;
	e->at = (size_t)chance_int(
	        d, 0, (int64_t)ring->count - (e->type == EDIT_NODE_INSERT ? 0 : 1));
	e->node = random_node(d, named_by(plan));
}

static void random_ring_edit(
        struct chance *d, struct arena *mem, const struct plan *plan, struct edit *e)
{
	e->type = (enum edit_type)chance_int(d, EDIT_RING_INSERT, EDIT_RING_SET);
	if (!plan->ring_count || plan->ring_count > 6)
		e->type = plan->ring_count ? EDIT_RING_DELETE : EDIT_RING_INSERT;
	e->ring = (size_t)chance_int(
	        d, 0, (int64_t)plan->ring_count - (e->type == EDIT_RING_INSERT ? 0 : 1));
	e->ring_value = random_ring(d, mem, named_by(plan));
}

/* No fewer channels than edges of the plan name, or rings that name those there will be. */
static void random_drains(
        struct chance *d, struct arena *mem, const struct plan *plan, struct edit *e)
{
	e->water = random_water(d, mem, 0);
	e->ring_count = plan->ring_count;
	e->rings = arena_alloc(mem, e->ring_count, sizeof *e->rings);
	ck_assert_ptr_nonnull(e->rings);
	for (size_t i = 0; i < e->ring_count; i++)
		e->rings[i] = random_ring(
		        d, mem, (struct named){ plan->border_count, e->water.channel_count });
}

static void random_beside(
        struct chance *d, struct arena *mem, const struct plan *plan, struct edit *e)
{
	size_t least = 0;

	for (size_t i = 0; i < plan->ring_count; i++)
		for (size_t k = 0; k < plan->rings[i].count; k++)
			if (plan->rings[i].nodes[k].channel > (int64_t)least)
				least = (size_t)plan->rings[i].nodes[k].channel;
	if (e->type == EDIT_WATER)
		e->water = random_water(d, mem, least);
	if (e->type == EDIT_SITE)
		e->site = random_site(d, mem);
	if (e->type == EDIT_PLANTERS)
		random_planters(d, mem, e);
	if (e->type == EDIT_STEPS)
		random_steps(d, mem, e);
	if (e->type == EDIT_COSTS)
		e->costs = random_costs(d, mem);
	if (e->type == EDIT_DRAINS)
		random_drains(d, mem, plan, e);
}

void random_edit(struct chance *d, struct arena *mem, const struct plan *plan, struct edit *e)
{
	int64_t what = chance_int(d, 0, 11);

	*e = (struct edit){ .edging.name = "", .text = "none" };
	snprintf(e->label, sizeof e->label, "edit %04x", (unsigned)(chance_next(d) & 0xFFFF));
	if (what < 5 && plan->ring_count) {
		random_node_edit(d, plan, e);
		return;
	}
	if (what < 7) {
		random_ring_edit(d, mem, plan, e);
		return;
	}
	e->type = (enum edit_type)chance_int(d, EDIT_LAYING, EDIT_TYPES - 1);
	e->laying = random_laying(d, mem);
	e->surface = random_surface(d, mem);
	if (e->type == EDIT_BORDERS)
		random_borders(d, mem, plan, e);
	if (e->type == EDIT_ZONES)
		random_zones(d, mem, e);
	e->ground = (struct plan_ground){ .bedding_um = chance_int(d, 0, 90000),
		.sub_base_um = 100000 };
	e->ground.has_instrument = chance_int(d, 0, 1);
	e->ground.backsight_um = e->ground.has_instrument ? chance_int(d, 0, 2000000) : 0;
	e->text = chance_int(d, 0, 1) ? "UK guidance" : "none";
	if (e->type == EDIT_EDGING)
		e->at = (size_t)chance_int(d, 0, EDGE_KINDS - 1);
	e->edging = random_edging(d);
	random_beside(d, mem, plan, e);
}
