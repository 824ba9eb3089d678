/* planters.c - planters for people: each wall drawn, its units, blocks to buy, ties, cap, fill,
 * levels, and the check of the soil it holds with its caution. */
#include "planters.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

const char *course_name(int pattern)
{
	return pattern ? "even" : "odd";
}

const char *planter_turn_name(enum planter_turn turn)
{
	static const char *const names[] = { "end", "square", "mitre" };

	return names[turn];
}

size_t alike_units(const struct pack_plan *plan, size_t first)
{
	const struct pack_unit *a = &plan->units[first];
	size_t n = 1;

	while (first + n < plan->unit_count) {
		const struct pack_unit *b = &plan->units[first + n];

		if (a->count != b->count || memcmp(plan->piece + a->first, plan->piece + b->first,
		                                    a->count * sizeof *plan->piece) != 0)
			break;
		n++;
	}
	return n;
}

/* Read on site: to the tenth of a millimetre. */
static char *mm(char *buf, size_t size, double um)
{
	return mm_print(buf, size, llround(um / 100) * 100);
}

static size_t corner_number(const struct planter_result *r, size_t corner)
{
	return r->corners[corner].point + 1;
}

static void put_list(FILE *to, size_t i, double um)
{
	char u[40];

	fprintf(to, "%s%s", i ? ", " : "", mm(u, sizeof u, um));
}

/* --- shape --- */

static void put_block(FILE *to, const struct plan_block *b)
{
	char l[40], w[40], h[40], j[40];

	fputs("  block: ", to);
	if (*b->name) {
		sheet_put_text(to, b->name);
		fputs(", ", to);
	}
	fprintf(to, "%s x %s x %s mm, joint %s mm%s%s\n", mm_print(l, sizeof l, b->length_um),
	        mm_print(w, sizeof w, b->width_um), mm_print(h, sizeof h, b->height_um),
	        mm_print(j, sizeof j, b->joint_um), b->has_half ? ", halves to be had" : "",
	        b->has_corner ? ", corner blocks to be had" : "");
}

static void put_shape(FILE *to, const struct planter_result *r)
{
	char w[40], h[40], x[40], y[40];

	put_block(to, &r->planter->block);
	text_line(to, "wall",
	        "%s mm wide (%d %s), %s mm high in %" PRId64 " courses, %.3f m along its middle",
	        mm(w, sizeof w, (double)r->width_um), r->leaf_count,
	        r->leaf_count == 1 ? "leaf" : "leaves", mm(h, sizeof h, (double)r->height_um),
	        r->planter->courses, r->middle_m);
	if (r->planter->closed)
		text_line(to, "inside", "%s x %s mm clear, %.3f m2",
		        mm(x, sizeof x, r->inside_x_um), mm(y, sizeof y, r->inside_y_um),
		        r->fill.inside_m2);
	for (size_t i = 0; i < r->corner_count; i++)
		if (r->corners[i].turn == PLANTER_MITRE)
			text_line(to, "mitre",
			        "corner %zu turns by %.1f degrees: both legs' blocks are cut to "
			        "half of it, and every course is tied across",
			        corner_number(r, i), (double)r->corners[i].turn_udeg * 1e-6);
}

static void put_bond(FILE *to, const struct planter_result *r)
{
	char lap[40], least[40];

	if (!r->has_lap)
		return;
	text_line(to, "least lap", "%s mm; at least %s mm is asked for%s",
	        mm(lap, sizeof lap, r->lap_um), mm(least, sizeof least, (double)r->least_lap_um),
	        r->lap_um < (double)r->least_lap_um
	                ? ": it CANNOT be kept with this block and these lengths"
	        : r->half_bond ? ", and half bond is kept"
	                       : "");
}

/* --- courses --- */

static bool same_unit(const struct planter_unit *a, const struct planter_unit *b)
{
	return a->leg == b->leg && a->leaf == b->leaf && a->length_um == b->length_um &&
	       a->piece == b->piece && a->corner == b->corner && a->end == b->end;
}

static void put_unit(FILE *to, const struct planter_unit *u, size_t times)
{
	char length[40];

	if (times > 1)
		fprintf(to, "%zu x ", times);
	if (u->corner)
		fputs("corner ", to);
	fprintf(to, "%s%s",
	        u->piece == UNIT_CUT    ? "cut "
	        : u->piece == UNIT_HALF ? "half "
	                                : "",
	        mm(length, sizeof length, (double)u->length_um));
}

/* "odd courses: from 0: corner 440, 12 x 440, cut 295". */
static void put_units(FILE *to, const struct planter_result *r, int pattern, size_t leg, int leaf)
{
	const struct planter_course *c = &r->courses[pattern];
	size_t told = 0;
	char from[40];

	fprintf(to, "  %s courses", course_name(pattern));
	if (r->leaf_count > 1)
		fprintf(to, ", %s leaf", leaf ? "inner" : "outer");
	for (size_t i = 0; i < c->unit_count;) {
		const struct planter_unit *u = &c->units[i];
		size_t n = 1;

		if (u->leg != leg || u->leaf != leaf) {
			i++;
			continue;
		}
		while (i + n < c->unit_count && same_unit(u, &c->units[i + n]))
			n++;
		if (!told++)
			fprintf(to, ", from %s mm: ",
			        mm(from, sizeof from, fmin(u->from_out_um, u->from_in_um)));
		else
			fputs(", ", to);
		put_unit(to, u, n);
		i += n;
	}
	fputc('\n', to);
}

static void put_ties(FILE *to, const struct planter_result *r, int pattern, size_t leg)
{
	const struct planter_course *c = &r->courses[pattern];
	size_t told = 0;

	for (size_t i = 0; i < c->tie_count; i++) {
		if (c->ties[i].leg != leg)
			continue;
		if (!told)
			fprintf(to, "  ties in %s courses at ", course_name(pattern));
		put_list(to, told++, c->ties[i].u_um);
	}
	if (told)
		fputs(" mm\n", to);
}

static void put_legs(FILE *to, const struct planter_result *r)
{
	fputs("\nCourses, each leg as seen from outside: _ whole, = half, : cut, # the other "
	      "leg's corner block, | joint, + joint with a tie. Places are mm from the leg's first "
	      "corner along its outer face.\n",
	        to);
	for (size_t i = 0; i < r->leg_count; i++) {
		const struct planter_leg *l = &r->legs[i];
		char length[40];

		fprintf(to, "\nLeg %zu, corner %zu to corner %zu, %s mm outside\n", i + 1,
		        corner_number(r, l->from), corner_number(r, l->to),
		        mm(length, sizeof length, (double)l->length_um));
		text_elevation(to, r, i);
		for (int k = 0; k < 2; k++)
			for (int leaf = 0; leaf < r->leaf_count && r->courses[k].times; leaf++)
				put_units(to, r, k, i, leaf);
		for (int k = 0; k < 2; k++)
			put_ties(to, r, k, i);
	}
}

/* --- blocks --- */

static void put_cuts(FILE *to, const struct planter_blocks *b)
{
	for (size_t i = 0; i < b->pack.unit_count;) {
		const struct pack_unit *u = &b->pack.units[i];
		size_t n = alike_units(&b->pack, i);

		fprintf(to, "    %zu block%s cut into ", n, n == 1 ? "" : "s");
		for (size_t k = 0; k < u->count; k++)
			put_list(to, k, (double)b->cuts[b->pack.piece[u->first + k]].length_um);
		fputs(" mm\n", to);
		i += n;
	}
}

static void put_blocks(FILE *to, const struct planter_result *r)
{
	const struct planter_blocks *b = &r->blocks;
	char money[40], least[40];

	fputs("\nBlocks\n", to);
	text_line(to, "laid",
	        "%" PRId64 " whole, %" PRId64 " corner, %" PRId64 " half, %" PRId64 " cut",
	        b->whole, b->corner, b->half, b->cut);
	if (b->too_short)
		text_line(to, "cut shorter than a quarter", "%" PRId64 " (%s mm)", b->too_short,
		        mm(least, sizeof least, (double)r->least_piece_um));
	text_line(to, "to buy",
	        "%" PRId64 " whole, %" PRId64 " half, %" PRId64 " corner, without breakage",
	        b->buy_whole, b->buy_half, b->buy_corner);
	if (b->cut_count)
		text_line(to, "whole blocks at least", "%" PRId64 " (%s)%s", b->buy_at_least,
		        b->reason, b->buy_at_least == b->buy_whole ? ": least possible" : "");
	put_cuts(to, b);
	if (b->price_minor >= 0)
		text_line(to, "price", "%s", money_print(money, sizeof money, b->price_minor));
	if (r->tie_count)
		text_line(to, "ties", "%" PRId64 ", at most %s mm apart", r->tie_count,
		        mm(least, sizeof least, r->tie_um));
	if (r->mortar_m3 > 0)
		text_line(to, "mortar in the joints", "%.3f m3", r->mortar_m3);
	if (r->block_kg > 0)
		text_line(to, "mass", "%.1f kg a block%s, %.0f kg the wall, %.0f kg a metre",
		        r->block_kg, r->heavy ? ", over the limit for one person" : "", r->wall_kg,
		        r->wall_kg_m);
	else
		text_line(to, "mass", "not known without the block's density");
}

/* --- cap, footing, fill --- */

static void put_spots(FILE *to, const struct planter_result *r, const char *what,
        const struct planter_spot *spots, size_t count)
{
	for (size_t leg = 0; leg < r->leg_count; leg++) {
		size_t told = 0;

		for (size_t i = 0; i < count; i++) {
			if (spots[i].leg != leg)
				continue;
			if (!told)
				fprintf(to, "    %s on leg %zu at ", what, leg + 1);
			put_list(to, told++, spots[i].u_um);
		}
		if (told)
			fputs(" mm\n", to);
	}
}

static void put_cap(FILE *to, const struct planter_result *r)
{
	const struct planter_cap *c = &r->cap;
	char unit[40], money[40];

	if (!c->piece_count)
		return;
	fputs("\nProfile on top\n", to);
	if (*r->planter->cap_name) {
		fputs("  ", to);
		sheet_put_text(to, r->planter->cap_name);
		fputc('\n', to);
	}
	text_line(to, "lengths",
	        "%" PRId64 " of %s mm (%" PRId64 " whole, %" PRId64
	        " pieces cut); at least %" PRId64 "%s%s",
	        c->units, mm(unit, sizeof unit, (double)r->planter->cap_um), c->whole, c->cut,
	        c->bound, *c->reason ? ", " : "", c->reason);
	for (size_t i = 0; i < c->piece_count; i++) {
		char l[40], u[40];

		fprintf(to, "    leg %zu from %s: %s mm%s\n", c->pieces[i].leg + 1,
		        mm(u, sizeof u, c->pieces[i].from_um),
		        mm(l, sizeof l, (double)c->pieces[i].length_um),
		        c->pieces[i].whole ? "" : ", cut");
	}
	text_line(to, "joints along legs", "%zu, and a mitre at each corner", c->joints);
	text_line(to, "fixings", "%zu, at most %s mm apart in a piece", c->fixing_count,
	        mm(unit, sizeof unit, c->spacing_um));
	put_spots(to, r, "fixings", c->fixings, c->fixing_count);
	if (c->price_minor >= 0)
		text_line(to, "price", "%s", money_print(money, sizeof money, c->price_minor));
}

static void put_fill(FILE *to, const struct planter_result *r)
{
	const struct planter_fill *f = &r->fill;

	fputs("\nFooting and fill\n", to);
	text_line(to, "footing", "%.3f m3 of %s, %.0f kg of cement", r->footing_m3,
	        r->planter->footing == MIX_LEAN_CONCRETE ? "lean concrete" : "stabilised sand",
	        r->cement_kg);
	if (!r->planter->closed)
		text_line(to, "inside", "%.3f m2, up to the straight line between the run's ends",
		        f->inside_m2);
	text_line(to, "gravel", "%.3f m3", f->gravel_m3);
	text_line(to, "soil", "%.3f m3 in place, %.3f m3 loose", f->soil_m3, f->soil_loose_m3);
	if (f->liner_m2 > 0)
		text_line(to, "liner", "%.2f m2, with 10 %% for laps", f->liner_m2);
	if (f->weep_count) {
		text_line(to, "drainage holes", "%zu, in the first course", f->weep_count);
		put_spots(to, r, "holes", f->weeps, f->weep_count);
	}
}

/* --- levels --- */

static void put_corner_level(FILE *to, const struct planter_result *r, size_t corner)
{
	const struct planter_corner *c = &r->corners[corner];
	char z[40], reveal[40], staff[40];

	fprintf(to,
	        "    corner %zu: surface %s, the wall shows %s mm, %" PRId64 " course%s under it",
	        corner_number(r, corner), mm(z, sizeof z, c->surface_um),
	        mm(reveal, sizeof reveal, c->reveal_um), c->courses_under,
	        c->courses_under == 1 ? "" : "s");
	if (r->has_staff)
		fprintf(to, ", staff on the top %s", mm(staff, sizeof staff, c->staff_um));
	fputc('\n', to);
}

static void put_levels(FILE *to, const struct planter_result *r)
{
	char top[40], base[40], least[40], most[40];

	fputs("\nLevels, mm\n", to);
	text_line(to, "string line", "level, at %s; the first course stands on %s",
	        mm(top, sizeof top, (double)r->top_um),
	        mm(base, sizeof base, (double)r->planter->base_um));
	if (!r->has_surface) {
		text_line(to, "reveal", "not known: the finished surface has no plane yet");
		return;
	}
	text_line(to, "reveal", "from %s to %s mm over the finished surface",
	        mm(least, sizeof least, r->least_reveal_um),
	        mm(most, sizeof most, r->most_reveal_um));
	if (r->courses_under || r->courses_partly)
		text_line(to, "courses under the surface",
		        "%" PRId64 " all along, %" PRId64 " more in part", r->courses_under,
		        r->courses_partly);
	for (size_t i = 0; i < r->corner_count; i++)
		put_corner_level(to, r, i);
}

/* --- held soil --- */

static void put_level(FILE *to, const struct wall_level *at)
{
	const struct wall_forces *f = &at->forces;

	if (at->course)
		fprintf(to, "    bed under course %" PRId64, at->course);
	else
		fputs("    bottom of the footing", to);
	fprintf(to, ": %.3f m of soil, thrust %.3f kN/m at %.3f m, overturning %.2f, sliding %.2f",
	        at->height_m, (at->thrust.soil_n + at->thrust.surcharge_n) / 1000, at->thrust.at_m,
	        f->fs_overturning, f->fs_sliding);
	if (f->topples)
		fputs(", it topples", to);
	else
		fprintf(to, ", edge pressure %.1f kPa%s", f->pressure_most_pa / 1000,
		        f->kern ? "" : " (outside the middle third: the heel lifts)");
	fputc('\n', to);
}

static void put_wall(FILE *to, const struct wall_result *w)
{
	fprintf(to, "\nSoil held, a metre of wall\n  %s\n", w->reason);
	if (w->worked_out) {
		text_line(to, "active coefficient", "%.4f (Rankine)", w->levels[0].thrust.ka);
		text_line(to, "factors asked for", "overturning %.2f (%s), sliding %.2f (%s)",
		        w->limits.fs_overturning, w->limits.overturning_source,
		        w->limits.fs_sliding, w->limits.sliding_source);
		text_line(to, "height",
		        "%.3f m from the bottom of the footing to the top; %.3f m of soil over "
		        "the ground in front",
		        w->height_m, w->fill_m);
		for (size_t i = 0; i < w->count; i++)
			put_level(to, &w->levels[i]);
	}
	text_caution(to, WALL_CAUTION);
}

/* --- all --- */

static void put_planter(FILE *to, const struct planter_result *r, size_t number)
{
	fprintf(to, "%sPlanter %zu", number ? "\n" : "", number + 1);
	if (*r->planter->name) {
		fputs(": ", to);
		sheet_put_text(to, r->planter->name);
	}
	fputc('\n', to);
	if (!r->ready) {
		fputs("  It cannot be built: ", to);
		sheet_put_text(to, r->fault.text);
		fputc('\n', to);
		return;
	}
	put_shape(to, r);
	put_bond(to, r);
	put_legs(to, r);
	put_blocks(to, r);
	put_cap(to, r);
	put_fill(to, r);
	put_levels(to, r);
	put_wall(to, &r->wall);
}

void text_planters(FILE *to, const struct takeoff *t)
{
	text_title(to, t, "Planters");
	if (!t->planters.count)
		fputs("The plan has no planters.\n", to);
	for (size_t i = 0; i < t->planters.count; i++)
		put_planter(to, &t->planters.items[i], i);
}
