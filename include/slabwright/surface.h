/* surface.h - the finished surface: levels, falls, and where the water goes.
 *
 * The surface is one plane, or at each point the highest (envelope max: valleys) or the lowest
 * (envelope min: ridges) of several. A plane's level at (x, y) is level - fall * distance downhill
 * from its fixed point. Every point of the paving drains along the line of steepest descent, from
 * plane to plane, until an edge, a channel or a gully takes the water or it stands. */
#ifndef SLABWRIGHT_SURFACE_H
#define SLABWRIGHT_SURFACE_H

#include "slabwright/geom.h"
#include "slabwright/rules.h"

/* Level of the finished surface at a point, um. 0 where no plane is set. */
double surface_level_um(const struct plan_surface *surface, double x_um, double y_um);

/* How the surface falls at a point: the steepest way down. In a valley it runs along the valley. */
struct surface_fall {
	double um_per_m; /* 0: level, a low point, or no plane */
	double toward_deg; /* compass of the fall, 0 up to 360; means nothing where level */
	size_t plane; /* that shows there; the first of those that meet */
	bool in_valley; /* two planes meet and the water runs along their line */
};
struct surface_fall surface_fall_at(const struct plan_surface *surface, double x_um, double y_um);

/* Formation (dug) level under a point: the surface less slab, bedding and sub-base. */
double formation_level_um(const struct plan *plan, double x_um, double y_um);

/* Height of instrument: the level of its line of sight, um; benchmark and backsight together. Means
 * nothing without an instrument. */
int64_t instrument_height_um(const struct plan_ground *ground);

/* Compass word of a direction: "right", "up-right", "up" ... in the plan, eight of them. */
const char *compass_name(int64_t toward_udeg);
int compass_octant(int64_t toward_udeg); /* 0 right, 1 up-right, ... 7 down-right */

struct level_point {
	const char *name; /* "corner 3", "opening 1 corner 2", the fixed point's own name, "zone 1
	                     corner 2" */
	int64_t x_um, y_um;
	double level_um, formation_um;
	bool has_staff;
	double staff_um; /* height of instrument less level */
};

/* --- the surface as an envelope --- */

/* The part of a region where a plane shows. Edges between parts carry EDGE_OF_PLANE of the plane
 * beyond in ring.edge. */
#define EDGE_OF_PLANE(plane) (-2 - (int)(plane))
struct surface_part {
	size_t plane;
	struct region region;
	double area_m2;
};

enum line_kind {
	LINE_RIDGE, /* water parts */
	LINE_VALLEY, /* water comes together and runs along it */
	LINE_CHANGE, /* only the fall changes: water crosses from planes[0] to planes[1] */
};

/* Where two planes meet inside the region. */
struct surface_line {
	enum line_kind kind;
	size_t planes[2];
	struct point high, low; /* its ends; either may be called high where it is level */
	double high_um, low_um; /* levels there */
	double fall_um_per_m; /* along it */
};
const char *line_kind_name(enum line_kind kind); /* "ridge", "valley", "change" */

struct surface_shape {
	struct surface_part *parts; /* by plane; a plane that shows nowhere has none */
	size_t part_count;
	struct surface_line *lines;
	size_t line_count;
};

/* Splits a region exactly into the parts where each plane shows. Of equal planes the first shows. A
 * surface without planes has no parts. STATUS_MEMORY. */
enum status surface_split(struct arena *mem, const struct plan_surface *surface,
        const struct region *region, struct surface_shape *out, struct error *err);

/* A straight piece of a contour line. */
struct contour {
	struct point a, b;
	double level_um;
};

/* The contours at all multiples of an interval, in the region given. A level plane has none.
 * Refuses (STATUS_PLAN) an interval under 0.1 mm, or one that gives more than 2000 levels. */
enum status surface_contours(struct arena *mem, const struct plan_surface *surface,
        const struct region *region, int64_t interval_um, struct contour **out, size_t *count,
        struct error *err);

/* --- water --- */

/* A gully takes what runs along a valley or a holding edge within this distance of it (half a
 * grating of 150 mm; common practice, no source). A channel along a line takes what runs there
 * within half its width. */
#define GULLY_REACH_UM 75000.0

/* A piece of paving that drains one way: two sides along the water, two across. */
struct water_piece {
	struct point p[4]; /* anticlockwise; two may coincide */
};

/* What drains somewhere. */
struct water_area {
	double area_m2;
	struct water_piece *pieces;
	size_t piece_count;
};

/* The water whose way first reaches an edge: over planes, and along valleys to their end. Where a
 * valley ends at a corner, an edge that lets water out takes it before one that holds it, then the
 * nearer one. */
struct catchment {
	size_t edge; /* number over the whole plan, from 0 */
	enum edge_kind kind;
	double area_m2;
	int64_t channel; /* along the edge, which takes the water: number from 1; 0 none */
	struct water_piece *pieces; /* the area, for drawing */
	size_t piece_count;
};

/* A channel or gully of the plan, in the plan's order. */
struct collector {
	struct water_area first; /* reaches it first; of a channel along edges what reaches these */
	double area_m2; /* ends up in it: that, and what other edges hold back and lead to it */
};

/* Where water stands: a low point of the surface without a gully, a level plane or valley, or a
 * corner of edges that hold it. */
struct pond {
	struct point at; /* a point of it */
	double level_um;
	const char *place; /* in words: "corner 3", "the low point at x 2.000 m, y 1.500 m" */
	bool held; /* by edges; else the surface itself holds it */
	bool level_plane; /* it stands on a level plane */
	struct water_area first; /* reaches it without meeting an edge; none where held */
	double area_m2; /* ends up there */
};

enum end_kind { END_EDGE, END_CHANNEL, END_GULLY, END_POND };

/* Where water ends up: edges let it out, the others take it; ponds keep it. */
struct water_end {
	enum end_kind kind;
	size_t number; /* of the edge over the whole plan, or in channels, gullies, ponds; from 0 */
	double area_m2;
};

/* Water that reaches an edge which holds it runs along that down to where it can leave. One entry
 * for each edge and place where such water ends. */
struct held_run {
	size_t edge;
	struct water_end end;
};

enum warning_code {
	WARN_NO_FALL, /* level: water stands */
	WARN_FALL_UNDER, /* less than the rule set's least */
	WARN_FALL_OVER, /* more than the rule set's most */
	WARN_WATER_TO_WALL, /* water reaches a house wall */
	WARN_HELD_BACK, /* water reaches a planter, or an edging that stands above the surface */
	WARN_STEP_TO_FIXED, /* surface and fixed point differ by more than 2 mm */
	WARN_LOW_POINT, /* water stands: no way out */
	WARN_PLANE_HIDDEN, /* a plane shows nowhere */
	WARN_VALLEY_UNDER, /* a valley falls less than the rule set's least for valleys */
	WARN_GULLY_DRY, /* no water reaches a gully */
	WARN_CHANNEL_DRY, /* no water reaches a channel */
	WARN_NEAR_DPC, /* surface too little under the damp-proof course at a house wall */
};

struct warning {
	enum warning_code code;
	const char *text; /* place and remedy, in words */
};
const char *warning_code_name(enum warning_code code); /* "water-to-wall" */

struct surface_result {
	bool has_plane;
	int64_t fall_um_per_m, toward_udeg; /* of the first plane */
	struct level_point *points; /* every node, the fixed point where there is one, corners of
	                               paved zones that lie in the paving */
	size_t point_count;
	double highest_um, lowest_um; /* over the outline and the lines where planes meet */
	struct point highest_at, lowest_at;
	const char *highest_name, *lowest_name; /* "corner 3", "edge 2 at 1.250 m", "x 1.000 m, y
	                                           2.000 m" */
	bool has_fixed;
	double fixed_difference_um; /* surface at the fixed point less its fixed level */
	struct surface_shape shape;
	struct catchment *catchments; /* edges that water reaches first, by edge number */
	size_t catchment_count;
	struct collector *channels, *gullies; /* as many as the plan has */
	size_t channel_count, gully_count;
	struct pond *ponds;
	size_t pond_count;
	double drained_m2; /* first reaches edges, channels and gullies */
	double standing_m2; /* first stands in ponds; both together are the region's area */
	struct water_end *ends; /* where it ends up; the areas' sum is the region's too */
	size_t end_count;
	struct held_run *held;
	size_t held_count;
	struct warning *warnings;
	size_t warning_count;
};

/* Whether water that reaches an edge stays on the paving: a house wall, a planter wall, or an
 * edging whose top stands above the surface (edging[kind].top_um > 0). */
bool edge_holds_water(const struct plan *plan, enum edge_kind kind);

/* The outline must have passed outline_check. */
enum status surface_work_out(struct arena *mem, const struct plan *plan, const struct rules *rules,
        struct surface_result *out, struct error *err);

#endif
