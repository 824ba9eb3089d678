/* How long the ranking of start lines takes: until the first is proven and to the end, for 200 m2
 * of square corners in several bonds, and for the same bond at 30 degrees; and how many of a
 * hundred patios by chance end with a proof. */
#include "chance.h"
#include "slabwright/startline.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { PATIOS = 100, SLICE = 2000 };

static const struct rules no_rules = { .name = "none" };

static double now_ms(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

struct times {
	double exact_ms, all_ms, slice_ms; /* exact: 0 when it does not come to that */
	struct start_list list;
};

static struct times rank(const struct plan *plan, bool turns)
{
	struct arena mem = { 0 };
	struct start_search *s;
	struct takeoff t;
	struct times out = { 0 };
	double begin;

	if (takeoff_plan(&mem, plan, &no_rules, &t, NULL) != STATUS_OK || !t.ready) {
		printf("%s\n", t.fault.text);
		exit(1);
	}
	begin = now_ms();
	if (startline_begin(&mem, &t, turns, &s, NULL) != STATUS_OK)
		exit(1);
	while (!startline_done(s)) {
		double at = now_ms();

		if (startline_step(s, SLICE, NULL) != STATUS_OK)
			exit(1);
		startline_best(s, &out.list);
		out.all_ms = now_ms() - begin;
		out.slice_ms = now_ms() - at > out.slice_ms ? now_ms() - at : out.slice_ms;
		if (out.list.exact && out.exact_ms <= 0)
			out.exact_ms = out.all_ms;
	}
	arena_free(&mem);
	return out;
}

static void report(const char *name, const struct plan *plan, bool turns)
{
	struct times t = rank(plan, turns);
	const struct start_row *r = &t.list.rows[0];

	printf("%s: first proven after %.0f ms, all after %.0f ms, longest slice %.1f ms, %ld "
	       "starts laid; %ld slivers, %ld slabs, %ld cuts instead of %ld, %ld, %ld\n",
	        name, t.exact_ms, t.all_ms, t.slice_ms, (long)t.list.tried, (long)r->slivers,
	        (long)r->slabs, (long)r->cuts, (long)t.list.now.slivers, (long)t.list.now.slabs,
	        (long)t.list.now.cuts);
}

static struct plan_node corner(int64_t x_mm, int64_t y_mm)
{
	return (struct plan_node){ .x_um = x_mm * UM_PER_MM, .y_um = y_mm * UM_PER_MM };
}

/* An L of 205 m2 with an opening. */
static struct plan large(
        struct plan_node corners[6], struct plan_node hole[4], struct plan_ring rings[2])
{
	static const int mm[][2] = { { 0, 0 }, { 17350, 0 }, { 17350, 8120 }, { 9240, 8120 },
		{ 9240, 15280 }, { 0, 15280 } };
	struct plan p;

	plan_init(&p);
	for (int i = 0; i < 6; i++)
		corners[i] = corner(mm[i][0], mm[i][1]);
	for (int i = 0; i < 4; i++)
		hole[i] = corner(i == 1 || i == 2 ? 3450 : 2000, i > 1 ? 3450 : 2000);
	rings[0] = (struct plan_ring){ corners, 6, true };
	rings[1] = (struct plan_ring){ hole, 4, true };
	p.rings = rings;
	p.ring_count = 2;
	p.name = "";
	return p;
}

static void large_jobs(void)
{
	struct plan_node corners[6], hole[4];
	struct plan_ring rings[2];
	struct plan p = large(corners, hole, rings);

	p.laying.bond = BOND_STACK;
	report("205 m2, 600 x 300 in stack bond", &p, false);
	report("  and turned", &p, true);
	p.laying.bond = BOND_STRETCHER;
	report("205 m2, 600 x 300 in stretcher bond", &p, false);
	p.laying.slab.pack = 40;
	report("  in packs of 40", &p, false);
	p.laying.slab.pack = 1;
	p.laying.rotation_udeg = 30 * UDEG_PER_DEG;
	report("205 m2, 600 x 300 in stretcher bond at 30 degrees", &p, false);
	p.laying.rotation_udeg = 0;
	p.laying.slab.width_um = 600 * UM_PER_MM;
	report("205 m2, 600 x 600 in stretcher bond", &p, false);
	p.laying.slab.length_um = 200 * UM_PER_MM;
	p.laying.slab.width_um = 100 * UM_PER_MM;
	p.laying.bond = BOND_HERRINGBONE;
	report("205 m2, 200 x 100 in herringbone", &p, false);
}

/* 3 to 9 m each way, to the centimetre; an L now and then. */
static void patios(void)
{
	static const int64_t sizes[][2] = { { 600, 300 }, { 600, 600 }, { 900, 600 }, { 450, 450 },
		{ 400, 400 } };
	struct chance c = chance_new(chance_seed("bench_startline", 2026));
	int exact = 0, slabs = 0;
	double sum = 0, most = 0;

	for (int i = 0; i < PATIOS; i++) {
		int64_t w = chance_int(&c, 300, 900) * 10, h = chance_int(&c, 300, 700) * 10,
		        a = chance_int(&c, 100, 200) * 10, b = chance_int(&c, 100, 200) * 10;
		const int64_t *size = sizes[chance_int(&c, 0, 4)];
		struct plan_node n[6] = { corner(0, 0), corner(w, 0), corner(w, h - b),
			corner(w - a, h - b), corner(w - a, h), corner(0, h) };
		struct plan_ring ring = { n, 6, true };
		struct plan p;
		struct times t;

		plan_init(&p);
		p.name = "";
		p.rings = &ring;
		p.ring_count = 1;
		p.laying.slab.length_um = size[0] * UM_PER_MM;
		p.laying.slab.width_um = size[1] * UM_PER_MM;
		p.laying.bond = chance_int(&c, 0, 1) ? BOND_STACK : BOND_STRETCHER;
		t = rank(&p, false);
		exact += t.list.exact;
		slabs += t.list.least_slabs == t.list.rows[0].slabs;
		sum += t.all_ms;
		most = t.all_ms > most ? t.all_ms : most;
	}
	printf("%d patios by chance: %d exact, %d with the least slabs proven; %.0f ms each, at "
	       "most %.0f ms\n",
	        PATIOS, exact, slabs, sum / PATIOS, most);
}

int main(void)
{
	large_jobs();
	patios();
	return 0;
}
