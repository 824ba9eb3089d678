/* geom.h - plane geometry of outlines.
 *
 * Lengths, areas and the check of an outline work on a plan's rings, arcs included, by closed
 * formulas. Laying and water work on a region: the rings flattened into straight edges, in double
 * um, the outer ring anticlockwise and the openings clockwise, so that the paving lies to the left
 * of every edge. */
#ifndef SLABWRIGHT_GEOM_H
#define SLABWRIGHT_GEOM_H

#include "slabwright/plan.h"

#define ARC_CHORD_ERROR_UM 500.0 /* greatest distance between an arc and its flattened edges */

struct point {
	double x, y; /* um */
};

/* A closed ring of straight edges; edge i runs from p[i] to p[i + 1], the last one back to p[0]. */
struct ring {
	struct point *p;
	size_t n;
	int *edge; /* for each straight edge, the number of the plan's edge it comes from; may be
	              NULL */
};

struct region {
	struct ring *rings;
	size_t count;
};

struct box {
	double x0, y0, x1, y1;
};

/* --- rings of a plan, closed formulas --- */

/* Length of the edge that leaves node `at`: its chord, or its arc r*theta with
 * r = (c*c/4 + h*h) / (2h), theta = 4 atan(2h/c) (c chord, h rise). */
double edge_length_um(const struct plan_ring *ring, size_t at);

/* Sum of the edge lengths of a closed ring, um. */
double ring_length_um(const struct plan_ring *ring);

/* Area a closed ring encloses, m2, positive either way round: the coordinates' cross products, and
 * for each arc its segment r*r/2 (theta - sin theta). */
double ring_area_m2(const struct plan_ring *ring);

/* Twice the signed area of the corners' polygon, exact, in um2: positive when they run
 * anticlockwise. */
double ring_signed_area2_um2(const struct plan_ring *ring);

/* Area of the paving, m2: the outline less its openings. */
double plan_area_m2(const struct plan *plan);

/* Outer perimeter, m, and all edges of openings, m. */
double plan_perimeter_m(const struct plan *plan);
double plan_opening_edges_m(const struct plan *plan);

/* Edges are numbered over the whole plan: those of the outline first, then opening by opening. */
size_t plan_edge_count(const struct plan *plan);
size_t plan_edge_number(const struct plan *plan, size_t ring, size_t at);
bool plan_edge_find(const struct plan *plan, size_t number, size_t *ring, size_t *at);

/* What an edge is called everywhere: "edge 3", "edge 2 of opening 1". Returns buf. */
char *edge_words(char *buf, size_t size, size_t ring, size_t at);
char *plan_edge_words(char *buf, size_t size, const struct plan *plan, size_t number);

/* Refuses (STATUS_PLAN) an outline that cannot be paved, naming ring, edges by number and length,
 * and the remedy: no outline, one not closed, fewer than three corners (two where an edge is an
 * arc), a corner beyond 1 km, an edge shorter than 1 mm, an arc that rises more than its chord, two
 * edges that cross or touch, an opening that leaves the outline or meets another. Nodes and edges
 * are numbered from 1, as on the screen. */
enum status outline_check(const struct plan *plan, struct error *err);

/* --- regions --- */

/* Flattens a plan's closed rings so that no chord is farther than the error (um) from its arc. The
 * outline must have passed outline_check. STATUS_MEMORY. */
enum status region_flatten(struct arena *mem, const struct plan *plan, double chord_error_um,
        struct region *out, struct error *err);

/* The same for laying: ARC_CHORD_ERROR_UM. */
enum status region_from_plan(
        struct arena *mem, const struct plan *plan, struct region *out, struct error *err);

/* The region turned by -udeg about (x, y) and moved so that this point is the origin: the pattern
 * frame. Quarter turns are exact. */
enum status region_turn(struct arena *mem, const struct region *from, double x, double y,
        int64_t udeg, struct region *out, struct error *err);

/* A point of the plan in that frame, and back. */
struct point frame_from_plan(struct point p, double x, double y, int64_t udeg);
struct point plan_from_frame(struct point p, double x, double y, int64_t udeg);

/* Cosine and sine of an angle, exact at quarter turns. */
void turn_of(int64_t udeg, double *cosine, double *sine);

double ring_polygon_area(const struct point *p, size_t n); /* signed, um2; anticlockwise positive */
double region_area_um2(const struct region *r);
struct box region_box(const struct region *r);
struct box points_box(const struct point *p, size_t n);

/* Whether the point lies in the region; on its border either answer may come. */
bool region_contains(const struct region *r, struct point p);
bool points_contain(const struct point *p, size_t n, struct point at);

/* Distance between two closed polygons given by their corners, the second moved by `move`; 0 where
 * they overlap or touch. */
double polygons_distance(
        const struct point *a, size_t na, const struct point *b, size_t nb, struct point move);

/* Refuses flattened rings of whole coordinates whose edges cross or touch, which run inside out, or
 * where an opening lies outside the outline or in another; edges are named as the plan's. */
enum status region_check(const struct plan *plan, const struct region *flat, struct error *err);

/* The region drawn in along its edges: inward[e] um for edge number e of the plan, into the paving.
 * Corners are mitred; where edges run nearly alike, or would have to grow by more than four times
 * what is taken to meet, a short step joins them, which carries a negative number in ring.edge and
 * does not move when the outcome is drawn in again. Chords at the ends of an arc that lie wholly in
 * what is taken along the edge beside it go. Refuses (STATUS_PLAN) what leaves nothing, turns an
 * edge round, uses up an arc or would lead out of the region. */
enum status region_inset(struct arena *mem, const struct plan *plan, const struct region *from,
        const double *inward, struct region *out, struct error *err);

/* A run of border courses along one edge, drawn out of the paving. Numbers of edges are not given:
 * ring.edge and straight.edge are NULL. */
struct strip {
	size_t edge; /* number over the whole plan */
	struct ring ring; /* in the plan's frame, anticlockwise; a mitred end is the line from outer
	                     to inner corner */
	/* The run laid straight: u along the edge with the paving to its left, v into the paving,
	 * um. u = 0 at the outer corner where the edge begins: a butted run begins at u > 0, and
	 * the inner line of a mitred one at u < 0 where the corner is re-entrant. A straight edge's
	 * strip is only turned; of a curve u is the length of arc at radius_um, and the run's ends
	 * are made straight: what is left are the corners there, on v = 0 and on the depth. */
	struct ring straight;
	bool curved;
	struct point centre; /* of a curve; of a straight edge the point u = v = 0 */
	double radius_um; /* at which u is measured: the narrow side's, where slabs keep their joint
	                   */
	double outer_um, inner_um; /* radii of the outline's side (v = 0) and of the field's */
	double from_rad; /* angle about the centre at u = 0; of a straight edge the way of u */
	bool clockwise; /* u runs clockwise about the centre */
};

/* Draws the runs of the plan's borders: `from` is the region within which they lie (the outline's
 * less gaps), as region_inset or region_from_plan made it. *field is what they leave: `from` drawn
 * in by their depths as region_inset does. Strips come in the order of their edges and fill the
 * rest of `from` without overlap, but for the rounding to whole um. Refuses (STATUS_PLAN) a border
 * wider than the paving or not narrower than its curve's radius, naming the edge.
 *
 * A run ends along the next edge, or that edge produced, where this one has no border. Of two runs
 * the border of the one that comes in decides: mitred, both end on the line from outer to inner
 * corner; butted, that run goes on to the next edge, or at a re-entrant corner to the next run's
 * inner line, and the next one begins at its side. Mitred all the same are corners that turn by
 * less than 14.5 degrees (whose sine is 1/4), a butt longer than four times the deeper border, and
 * one that finds no line to end on. At a stepped corner both end on the line from the outer corner
 * to the less deep inner one. */
enum status region_borders(struct arena *mem, const struct plan *plan, const struct region *from,
        struct strip **strips, size_t *count, struct region *field, struct error *err);

/* A point of the plan in the strip's straight frame, and back. */
struct point strip_from_plan(const struct strip *strip, struct point p);
struct point plan_from_strip(const struct strip *strip, struct point p);

/* Splits a region by a closed ring that does not cross itself, either way round, into what lies
 * inside it and what lies outside. Corners are taken to the nearest whole um, and so are crossings;
 * edges that pass a corner within half a um bend to it, so that both parts share corners and edges
 * exactly. Edges between the parts carry `label` in ring.edge; the region's keep their numbers (0
 * where it has none), also where the ring runs along them. Outer rings come anticlockwise, openings
 * clockwise, in no order; each passes a point once, and may touch another at a point, but not with
 * its first corner unless all do. Parts joined at a point come apart. Either part may be empty.
 * STATUS_MEMORY; STATUS_PLAN, naming the place, where edges too close together cannot be cut apart.
 */
enum status region_split(struct arena *mem, const struct region *from, const struct ring *by,
        int label, struct region *inside, struct region *outside, struct error *err);

/* A closed ring of a plan flattened, anticlockwise, chord error as for laying; edges are numbered
 * from 0 by the node they leave. The ring must have passed zone_rings_check. STATUS_MEMORY. */
enum status ring_flatten(
        struct arena *mem, const struct plan_ring *ring, struct ring *out, struct error *err);

/* Refuses (STATUS_PLAN) a zone's ring as outline_check refuses an outline: not closed, too few
 * corners, a corner out of reach, edges too short or that cross or touch. Zones are named by number
 * and name. A ring may reach beyond the outline and touch or cross anything else. */
enum status zone_rings_check(const struct plan *plan, struct error *err);

/* Both checks: of the outline with its openings, then of the zones. */
enum status plan_rings_check(const struct plan *plan, struct error *err);

/* The part of a region strictly between two lines, lo < x < hi or lo < y < hi, as rings that keep
 * their orientation. What only touches a line is left out; parts joined at a point come apart. An
 * edge made by a line gets the edge number EDGE_OF_CUT. */
#define EDGE_OF_CUT (-1)
enum axis { AXIS_X, AXIS_Y };
enum status region_band(struct arena *mem, const struct region *from, enum axis axis, double lo,
        double hi, struct region *out, struct error *err);

#endif
