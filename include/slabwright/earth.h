/* earth.h - the ground as it was found, and what is dug and filled down or up to the formation.
 *
 * The ground runs straight between the three levels of a triangle (mesh.h). Beyond the hull of the
 * levels it keeps the level of the hull's nearest point: from a side of the hull it goes on level
 * across, from a corner level all round. Levels on one line, and a single one, go on in the same
 * way. All that lies beyond is extrapolated, and its area is told. */
#ifndef SLABWRIGHT_EARTH_H
#define SLABWRIGHT_EARTH_H

#include "slabwright/mesh.h"
#include "slabwright/section.h"

/* value + x_slope (x - x) + y_slope (y - y): a level, or a distance; um and um per um. */
struct linear {
	double x, y, value, x_slope, y_slope;
};
double linear_at(const struct linear *f, double x, double y);

/* A part of the plane over which the ground's level is linear: where none of its sides' functions,
 * distances inward from a line, is negative. */
struct ground_cell {
	struct linear side[3];
	int sides;
	struct box box; /* about it; without end beyond the hull */
	struct linear level;
	double lowest_um, highest_um; /* of the levels it lies between */
	bool beyond; /* the hull: then nearest to it is one point, that of `level`, or the line
	                where `away` is 0 */
	bool round;
	struct linear away;
};
/* How far a point of the cell lies beyond the hull. */
double ground_cell_beyond(const struct ground_cell *cell, double x, double y);

enum ground_kind {
	GROUND_NONE, /* no levels */
	GROUND_ONE, /* level */
	GROUND_LINE, /* levels on one line */
	GROUND_MESH
};

struct ground {
	enum ground_kind kind;
	size_t level_count; /* those at one place and of one level count once */
	struct plan_point *points;
	double *level_um; /* of each point */
	struct mesh mesh;
	struct ground_cell *cells;
	size_t cell_count;
};

/* Refuses (STATUS_PLAN), naming them, levels at one place that differ, and a level or place beyond
 * 1 km. Everything in *out lives in mem. */
enum status ground_make(struct arena *mem, const struct plan_spot *levels, size_t count,
        struct ground *out, struct error *err);

/* The ground's level at a point, um; 0 without levels. *beyond (may be NULL): how far the point
 * lies beyond the hull, um; 0 within. */
double ground_level_um(const struct ground *ground, double x_um, double y_um, double *beyond);

/* A part of the dig that has one depth under the surface: a section of the paving, or the margin
 * beyond the outline beside it. */
struct earth_part {
	const char *name; /* "field"; "over-dig beside field" */
	size_t section; /* of the paving */
	bool margin;
	double depth_um; /* formation under the plan's surface */
	double area_m2; /* arcs flattened as for laying */
	double topsoil_m3, cut_m3, fill_m3; /* as in the whole */
};

/* A compacted layer under the paving; its area is seen from above, its depth upright. */
struct earth_layer {
	double area_m2;
	int64_t depth_um;
	double volume_m3; /* compacted */
};

struct earth_result {
	bool ready; /* false: `fault` says what is missing, and only the layers are set */
	struct error fault;
	struct earth_layer bedding, sub_base; /* under paved sections, gaps along edges with them */
	double unpaved_m3; /* of zones without slabs, from the formation to their surface */
	struct ground ground;
	double area_m2; /* of outline less openings */
	double over_dig_m2;
	double extrapolated_m2; /* of both */
	double farthest_um; /* beyond the hull */
	/* In the ground, before it is loosened; the over-dig is in them. */
	double topsoil_m3; /* stripped over the whole area */
	double cut_m3; /* from under the topsoil down to the formation */
	double fill_m3; /* from under the topsoil up to it; compacted */
	double over_dig_m3; /* topsoil and cut beyond the outline */
	double deepest_um, deepest_x_um, deepest_y_um; /* ground over formation; 0: nowhere */
	double highest_um, highest_x_um, highest_y_um; /* fill; 0: none */
	/* Loose, by bulking and compaction. */
	double topsoil_loose_m3, cut_loose_m3;
	double fill_loose_m3; /* that makes the fill when compacted */
	double surplus_loose_m3, missing_loose_m3; /* when what is cut serves as fill */
	struct earth_part *parts;
	size_t part_count;
};

/* Works out the dig of a plan whose paving was cut into sections. `levels` are those of the ground:
 * plan->site.spots, and points of the levelling book.
 *
 * The formation lies under the finished surface (the highest or lowest of the plan's planes, as its
 * envelope says) by slab, bedding and sub-base, each section's slab and level its own; a section
 * without slabs is dug as deep under its surface as the field. Beyond each edge of the outline that
 * is neither house wall nor existing paving, out to the over-dig, the formation beside the edge's
 * middle goes on in its planes; corners up to a right angle are mitred, sharper ones cut square.
 * Openings are not dug.
 *
 * Topsoil is stripped to its depth all over; then cut is where the rest lies above the formation,
 * fill where it lies below. Volumes are exact for linear ground and formation: prisms over the
 * parts where both are linear, parted along the line where they meet.
 *
 * STATUS_MEMORY, or OK with out->ready telling. */
enum status earth_work_out(struct arena *mem, const struct plan *plan,
        const struct plan_spot *levels, size_t count, const struct region *region,
        const struct paving *paving, struct earth_result *out, struct error *err);

/* --- soil that changes its volume, m3 --- */

/* Bulking is counted on the volume in the ground: dug = in the ground * (1 + bulking). */
double earth_loosened(double in_ground, int64_t bulking_ppm);
double earth_in_ground(double loose, int64_t bulking_ppm);
/* Compaction is counted on the loose volume: compacted = loose * (1 - compaction). Gives the loose
 * one. */
double earth_loose_for(double compacted, int64_t compaction_ppm);
/* The compaction of a soil of which 1 m3 in the ground makes so much loose and so much compacted:
 * 1 - compacted / loose. */
int64_t earth_compaction_ppm(double loose, double compacted);

/* --- formulas by which a crew checks a volume; any unit, cubed --- */

/* Between two cross-sections: the average end area rule (a1 + a2) / 2 * length, the pyramid a * l /
 * 3, and the first with the second where one of the sections is nothing. */
double volume_end_areas(double a1, double a2, double length);
double volume_pyramid(double area, double length);
double volume_tapered(double a1, double a2, double length);
/* The prismoidal rule: (a1 + 4 middle + a2) / 6 * length, with the section half way. */
double volume_prismoid(double a1, double middle, double a2, double length);
/* A trench's cross-section: base * depth + slope * depth * depth, each side sloping by `slope`
 * across for 1 up. */
double trench_section(double base, double depth, double slope);
/* Borrow pit: levels or depths at the corners of a grid of columns x rows cells, row by row from
 * below, (columns + 1) * (rows + 1) of them. Each counts as often as cells that are dug meet there:
 * cell / 4 * (sum h1 + 2 sum h2 + 3 sum h3 + 4 sum h4). `dug` row by row; NULL: all. */
double volume_grid(
        const double *depth, size_t columns, size_t rows, const bool *dug, double cell_area);

#endif
