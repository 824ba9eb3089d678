/* drains.h - inside the computation: the working picture of where water goes.
 *
 * The rim is the region's rings once more, with a point more wherever the plane changes and where
 * a gully or channel meets a holding edge: so levels run straight along each of its edges. Edges of
 * the region and lines where planes meet are tracks. A span of a track says where the water goes
 * that reaches the track there: a sink. */
#ifndef SLABWRIGHT_CALC_DRAINS_H
#define SLABWRIGHT_CALC_DRAINS_H

#include "envelope.h"

#define CORNER_UM 1000.0 /* what lies nearer to a point of the rim is on it */
#define LEVEL_PER_UM 1e-6 /* gentler than a thousandth of a mm per m is level */
#define NOWHERE (-1)

struct rim_point {
	struct point p;
	double level_um;
	size_t next, prev; /* round the ring, paving to the left */
	int edge; /* of the plan, that leaves here */
	size_t group, mate; /* points joined by level holding edges: their number, and the next one
	                       round */
};

struct span {
	double from, to; /* along the track */
	int sink;
};

struct track {
	struct point at, along; /* a point of it, and its direction, of length 1 */
	struct span *spans;
	size_t count, room;
};

/* Where water goes on to: an end, or a node: a rim point, or behind those a sink. */
struct target {
	bool final;
	struct water_end end;
	size_t node;
};

/* What takes water first. Sink i is rim edge i as long as there are rim points; then come channels
 * along lines, level planes and valleys. */
struct sink {
	double area_um2;
	struct target to; /* not of rim edges */
};

struct valley {
	size_t line; /* in the shape */
	int sink;
	struct point high, low;
	bool level;
	bool known; /* where it ends: a gully or channel on it */
};

/* A part of the region where one plane shows, edges cut at the ends of their tracks' spans. */
struct drain_corner {
	struct point p;
	int track, sink; /* of the edge that leaves */
};
struct drain_ring {
	struct drain_corner *at;
	size_t n, room;
};
struct drain_part {
	const struct surface_part *of;
	struct drain_ring *rings;
	size_t count;
	double steepness;
	int sink; /* of a level plane; else NOWHERE */
};

struct drain_piece {
	struct water_piece shape;
	int sink;
};

struct drains {
	struct arena *mem;
	const struct plan *plan;
	struct region region; /* edges numbered by track */
	int *edge_of; /* of a track that is an edge, the plan's number */
	size_t edges; /* tracks that are edges; those of meeting planes follow */
	struct gradient *planes;
	size_t plane_count;
	struct surface_shape shape;
	struct drain_part *parts; /* in the shape's order */
	struct track *tracks;
	struct rim_point *rim;
	size_t rim_count;
	struct sink *sinks;
	size_t sink_count, sink_room;
	struct valley *valleys;
	size_t valley_count, valley_room;
	struct drain_piece *pieces;
	size_t piece_count, piece_room;
	struct pond *ponds;
	size_t pond_count, pond_room;
	bool *by_edge; /* of each channel: it runs along edges of the plan */
};

/* Track of the line between the parts of two planes, in the order of the shape's parts. */
size_t track_between(const struct drains *d, size_t a, size_t b);
/* The number of a plane's part, or part_count. */
size_t part_of_plane(const struct drains *d, size_t plane);
double track_place(const struct track *t, struct point p);
struct point track_point(const struct track *t, double place);

/* Channel number from 0 along a plan's edge, or NOWHERE. */
int edge_channel(const struct plan *plan, size_t edge);
bool edge_holds(const struct drains *d, int edge); /* and has no channel */

bool add_sink(struct drains *d, struct target to);
bool add_span(struct drains *d, size_t track, struct span span);
/* A pond at a point: the one already there, or a new one. NOWHERE when memory is gone. */
int pond_at(struct drains *d, struct point p, bool held);

struct target to_end(enum end_kind kind, size_t number);
struct target to_node(size_t node);

/* The gully within reach of a point, or NOWHERE; a channel along a line within half its width. */
int gully_near(const struct plan *plan, struct point p);
int nearest_rim_edge(const struct drains *d, struct point p);
int channel_near(const struct drains *d, struct point p);
double distance_to_line(struct point p, struct point a, struct point b, double *share);

/* "corner 3", "opening 1 corner 2", "edge 2 at 1.250 m", "x 1.000 m, y 2.000 m"; NULL without
 * memory. */
const char *place_words(struct arena *mem, const struct plan *plan, struct point p);

/* rim.c: fills rim and the tracks of edges. */
enum status drains_rim(struct drains *d, struct error *err);
/* valley.c: sinks and spans of the valleys; then, once all pieces are found, where they end. */
enum status valleys_find(struct drains *d, struct error *err);
enum status valleys_follow(struct drains *d, struct error *err);
/* The sink of the valley of two planes that begins at a point, or NOWHERE. */
int valley_from(
        const struct drains *d, size_t a, size_t b, struct point p, const struct valley * not );
/* The sink that water from a point of a plane reaches first, or NOWHERE. */
int ray_sink(const struct drains *d, size_t plane, struct point from);
/* sweep.c: what of a part drains to which sink. */
enum status sweep_part(struct drains *d, size_t part, struct error *err);
/* catchment.c: all of it up to the pieces and what first takes their water. */
enum status drains_find(
        struct arena *mem, const struct plan *plan, struct drains *d, struct error *err);
/* ending.c. Nodes are rim points, and behind them sinks. */
struct endings {
	struct drains *d;
	bool *known, *passing;
	struct water_end *ends; /* of nodes that are known */
	size_t *path;
};
bool endings_begin(struct drains *d, struct endings *out); /* false: no memory */
/* What takes the water of a sink first: an edge, also where it holds the water. */
struct water_end ending_first(const struct drains *d, size_t sink);
/* Where water at a node ends up; false where memory is gone. */
bool ending_last(struct endings *e, size_t node, struct water_end *end);
/* drains_report.c: fills what surface_result says of water. */
enum status drains_report(struct drains *d, struct surface_result *out, struct error *err);

#endif
