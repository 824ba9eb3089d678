/* plan.h - one variant of a job, as plain values.
 *
 * The store reads a plan, the computation works it out, tests build one by hand. x runs to the
 * right, y up (away from the house by habit), z up; lengths and levels in um, levels relative to
 * the job's datum. Everything a plan points to lives in the arena it was read into. */
#ifndef SLABWRIGHT_PLAN_H
#define SLABWRIGHT_PLAN_H

#include "slabwright/arena.h"
#include "slabwright/error.h"
#include "slabwright/plan_build.h"
#include "slabwright/plan_cost.h"
#include "slabwright/plan_site.h"
#include "slabwright/plan_water.h"
#include "slabwright/units.h"

/* What stands along an edge: decides what is bought for it and whether water may leave over it. */
enum edge_kind {
	EDGE_HOUSE_WALL,
	EDGE_KERB,
	EDGE_HAUNCH, /* flush edge, held by a haunch only */
	EDGE_PLANTER,
	EDGE_STEPS,
	EDGE_EXISTING_PAVING,
	EDGE_OPEN,
	EDGE_KINDS,
};

/* A corner of a ring, and the edge that leaves it for the next corner. */
struct plan_node {
	int64_t x_um, y_um;
	int64_t rise_um; /* height of the arc over its chord; 0 straight; positive bulges away from
	                  * what the ring encloses */
	enum edge_kind kind;
	int64_t border; /* border courses along the edge: number in the plan's borders from 1; 0
	                 * none
	                 */
	int64_t channel; /* drainage channel along the edge: number in the plan's channels from 1; 0
	                    none */
};

struct plan_ring {
	struct plan_node *nodes;
	size_t count;
	bool closed; /* false while it is being drawn; then the last node's edge does not exist yet
	              */
};

/* What the length and width of a slab mean. */
enum size_meaning {
	SIZE_COORDINATING, /* nominal: the joint is inside them */
	SIZE_WORK, /* the slab itself: the joint is added to get the pitch */
};

struct plan_slab {
	const char *name; /* as in the catalogue; "" for one typed in */
	int64_t length_um, width_um, thickness_um, joint_um;
	enum size_meaning size;
	bool directional; /* has a grain or a top: may not be turned when a piece is cut from it */
	int64_t pack; /* slabs in a pack that is not split; 1 where sold singly */
	int64_t density_kg_m3; /* 0 unknown */
	int64_t price_minor; /* price of one slab in minor units of money (cents, pence); -1 unknown
	                      */
};

/* Whether two slabs are bought as the same, whatever length, width and joint are. */
bool slab_alike(const struct plan_slab *a, const struct plan_slab *b);

enum bond {
	BOND_STACK,
	BOND_STRETCHER,
	BOND_HERRINGBONE,
	BOND_BASKETWEAVE,
	BOND_MIXED,
	BOND_COURSED_RANDOM,
	BONDS
};

/* Which way the courses of stack and stretcher bond run; slabs keep their length along x. */
enum along { ALONG_X, ALONG_Y };

enum edge_rule {
	RULE_FINISHED, /* sides of a piece that face a joint are slab edges */
	RULE_ROUGH, /* cut sides may face joints */
};

#define SLIVER_WIDTH_DEFAULT (-1)

/* Mixed sizes: a few slabs that, repeated by every (step_x, 0) and every (slant, step_y), cover the
 * plane once. Sizes are coordinating; the joint is that of the laying's slab. */
#define REPEAT_SLABS 32

struct repeat_slab {
	int64_t x_um, y_um, length_um,
	        width_um; /* lower left corner in the repeat; along x and y */
};

struct plan_repeat {
	const char *name;
	int64_t step_x_um, step_y_um, slant_um;
	struct repeat_slab *slabs;
	size_t count; /* 0 where the bond has none */
};

/* Coursed random: courses as high as the sizes' widths, filled with their lengths by chance, so
 * that the sizes are used up in proportion to their shares. */
#define MIX_SIZES 16

struct mix_size {
	int64_t length_um, width_um; /* coordinating */
	int64_t share; /* of the slabs in a pack, any unit: 3 of 10, 30 % ... */
};

struct plan_mix {
	int64_t seed;
	struct mix_size *sizes;
	size_t count; /* 0 where the bond has none */
};

struct plan_laying {
	struct plan_slab slab;
	enum bond bond;
	double offset; /* fraction of the pitch by which each course shifts, 0 <= offset < 1 */
	enum along along; /* of stack and stretcher bond */
	int64_t rotation_udeg; /* pattern frame: plan turned by minus this about the start */
	int64_t start_x_um, start_y_um;
	int64_t kerf_um; /* width the blade takes */
	int64_t fill_width_um; /* narrower pieces are made up in the joint */
	int64_t sliver_width_um; /* narrower cut pieces are slivers; SLIVER_WIDTH_DEFAULT: by slab
	                          */
	enum edge_rule edges;
	int64_t breakage_ppm; /* allowance on the slabs, parts per million; 20000 is 2 % */
	struct plan_repeat repeat; /* of mixed bond */
	struct plan_mix mix; /* of coursed random bond */
	int64_t edge_joint_um[EDGE_KINDS]; /* gap left open along edges of a kind: expansion joint
	                                      at a wall */
};

/* Border courses along edges: slabs across the run (soldier) or along it (stretcher). */
enum border_lay { BORDER_SOLDIER, BORDER_STRETCHER };

/* Where two bordered edges meet: both runs cut to the line between outer and inner corner, or the
 * run that comes in goes through to the corner and the one that leaves butts against it. */
enum border_corner { CORNER_MITRED, CORNER_BUTTED };

/* Where a run's slabs are counted from: the first begins where the run begins, or the run's middle
 * is a joint or the middle of a slab, whichever leaves the longer ends. */
enum border_begin { BEGIN_CORNER, BEGIN_MIDDLE };

#define BORDERS 16 /* at most, of a plan */

struct plan_border {
	struct plan_slab slab;
	enum border_lay lay;
	int64_t deep; /* courses, 1 or 2 */
	double offset; /* fraction of the pitch by which the second course shifts */
	enum border_corner corners;
	enum border_begin begin;
	int64_t widest_joint_um; /* on a curve: the joint at the wide end up to which slabs stay
	                            whole; beyond it they are cut to wedges */
};

#define ZONES 32 /* at most, of a plan */

/* A part of the paving with a slab, bond and level of its own, or with no slabs at all: what of its
 * ring lies in the paving, less gaps and border courses. */
struct plan_zone {
	const char *name;
	struct plan_ring ring; /* kinds and borders of its edges mean nothing */
	bool paved; /* false: gravel, planting; the laying means nothing */
	struct plan_laying laying; /* slab, bond, offset, along, rotation, start, repeat and mix
	                              count; the rest is the variant's */
	int64_t level_um; /* of its surface over that of the plan there */
};

enum envelope { ENVELOPE_MAX, ENVELOPE_MIN };

/* A plane of the finished surface: level_um at (x, y), falling by fall_um_per_m toward the compass
 * toward_udeg (anticlockwise from +x, pointing downhill). */
struct plan_plane {
	int64_t x_um, y_um, level_um;
	int64_t toward_udeg;
	int64_t fall_um_per_m;
};

#define SURFACE_PLANES 64 /* at most, of a surface */

struct plan_surface {
	enum envelope envelope;
	struct plan_plane *planes;
	size_t count;
	/* The fixed point of the site that the paving has to meet: a path, a threshold. */
	bool has_fixed;
	const char *fixed_name;
	int64_t fixed_x_um, fixed_y_um, fixed_level_um;
	/* The house's damp-proof course; the paving stays below it along house walls. */
	bool has_dpc;
	int64_t dpc_um;
};

/* Layers under the slabs, compacted, and the level set up to read a staff. */
struct plan_ground {
	int64_t bedding_um, sub_base_um;
	bool has_instrument;
	int64_t benchmark_um, backsight_um; /* height of instrument = benchmark + backsight */
};

enum edging_profile { PROFILE_STRAIGHT, PROFILE_TAPERED, PROFILE_TONGUE };

/* What is bought by the piece along edges of a kind, and how it stands. unit_um 0: nothing is. */
struct plan_edging {
	const char *name;
	int64_t unit_um, joint_um;
	int64_t depth_um; /* across the run, outward from the paving; 0 unknown */
	bool mitred; /* corners where two edges of the kind meet; else butted. Needs the depth */
	int64_t least_um; /* no piece shorter than this where it can be helped; 0: a third of the
	                     unit (common practice, no source) */
	int64_t corner_um; /* leg of a corner piece that is bought for outer corners; 0 none */
	enum edging_profile profile;
	int64_t foot_um; /* tapered: depth_um at its foot; else 0 */
	int64_t height_um; /* 0 unknown; then no bed is worked out */
	int64_t top_um; /* its top over the finished surface beside it; negative under it */
	enum bed_mix bed;
	int64_t cement_kg_m3; /* of the bed and haunch, compacted */
	int64_t strip_um; /* base strip: thickness under the unit */
	int64_t strip_beyond_um; /* how far the strip reaches beyond the unit, on each haunched side
	                          */
	int64_t haunch_um; /* width of the haunch at its foot, on the outer side; 0 none */
	int64_t held_um; /* how high the haunch reaches up the unit from its underside */
	bool haunch_both; /* on the inner side too */
	int64_t density_kg_m3; /* 0 unknown */
	int64_t price_minor; /* of one unit; -1 unknown */
};

struct plan {
	const char *name; /* of the variant */
	struct plan_ring *rings; /* rings[0] is the outline, the others are openings */
	size_t ring_count;
	struct plan_laying laying; /* of the field: what borders and zones leave */
	struct plan_border *borders;
	size_t border_count;
	struct plan_zone *zones;
	size_t zone_count;
	struct plan_surface surface;
	struct plan_ground ground;
	struct plan_edging edging[EDGE_KINDS];
	struct plan_water water;
	struct plan_site site;
	struct plan_planter *planters;
	size_t planter_count;
	struct plan_steps *steps; /* flights */
	size_t steps_count;
	struct plan_costs costs;
	const char *rule_set; /* name; "none" for no limits */
};

/* An empty plan: no rings, a 600 x 300 x 50 slab (coordinating, joint 3 mm) in stretcher bond of a
 * half, no planes, 40 mm bedding and 100 mm sub-base (common practice), rule set "none". Values
 * point to constants; nothing is allocated. */
void plan_init(struct plan *plan);

/* A deep copy into the arena. STATUS_MEMORY when there is none. */
enum status plan_copy(
        struct arena *mem, const struct plan *from, struct plan *to, struct error *err);

/* Deep copies of a plan's parts; false when memory is gone. `to` may be `from`. */
bool laying_copy(struct arena *mem, const struct plan_laying *from, struct plan_laying *to);
bool borders_copy(
        struct arena *mem, const struct plan_border *from, size_t count, struct plan_border **to);
bool zones_copy(
        struct arena *mem, const struct plan_zone *from, size_t count, struct plan_zone **to);

/* A border of one soldier course of 200 x 100 slabs, mitred, begun at the corner; joints on curves
 * up to 15 mm (common practice). A zone without corners, named "", laid as plan_init lays. */
void border_init(struct plan_border *border);
void zone_init(struct plan_zone *zone);

/* Across the run and along it: the coordinating size of a border's slab as it lies, um. */
struct border_size {
	int64_t across_um, along_um; /* the slab itself */
	int64_t pitch_across_um, pitch_along_um; /* slab plus joint */
};
struct border_size border_size(const struct plan_border *border);

/* What the border takes from the paving along its edge, um: its courses with their joints. */
int64_t border_depth_um(const struct plan_border *border);

/* The words of the exchange format; -1 for a word that is none. */
const char *border_lay_name(enum border_lay lay);
int border_lay_parse(const char *word);
const char *border_corner_name(enum border_corner corners);
int border_corner_parse(const char *word);
const char *border_begin_name(enum border_begin begin);
int border_begin_parse(const char *word);

/* "soldier course of 200 x 100 slabs, mitred"; "2 stretcher courses of ..., butted". */
char *border_print(char *buf, size_t size, const struct plan_border *border);

/* The words of the exchange format, and back: -1 for a word that is none. */
const char *edging_profile_name(enum edging_profile profile);
int edging_profile_parse(const char *word);
const char *edge_kind_name(enum edge_kind kind);
int edge_kind_parse(const char *word);
const char *bond_name(enum bond bond);
int bond_parse(const char *word);

/* A bond as the crew says it: "stack", "stretcher 1/2", "stretcher 1/3 along y", "herringbone". */
char *bond_print(char *buf, size_t size, const struct plan_laying *laying);

/* Work size and pitch of the laying's slab, with the joint taken off or added as its size means. */
struct slab_size {
	int64_t length_um, width_um; /* the slab itself */
	int64_t pitch_x_um, pitch_y_um; /* slab plus joint */
};
struct slab_size slab_size(const struct plan_slab *slab);

/* The sliver width in force for a slab of these sides (the slab itself): as set, or a quarter of
 * the shorter one and not under 50 mm. */
int64_t sliver_width_um(const struct plan_laying *laying, int64_t length_um, int64_t width_um);

/* Whether a bond is laid of one slab; mixed sizes and coursed random bring their own. */
bool bond_of_one_slab(enum bond bond);

/* Refuses (STATUS_PLAN) a laying that cannot be laid, naming the value and its limits: slab sides
 * from 20 mm to 5 m, joint from 0 to 100 mm and under the sides, thickness from 5 mm to 1 m, kerf 0
 * to 20 mm, fill width 0 to 200 mm, offset from 0 up to 1, breakage 0 to 50 %, pack 1 to 100000,
 * joints along edges 0 to 100 mm; and what repeat_check and mix_check refuse, where the bond needs
 * a repeat or mix or one is given.
 * `place` is put before the name of the value ("variants[0].laying."), "" for none. */
enum status laying_check(const struct plan_laying *laying, const char *place, struct error *err);

/* Refuses (STATUS_PLAN) borders that cannot be laid: more than BORDERS, a slab that laying_check
 * would refuse, other than 1 or 2 courses, an offset not from 0 up to 1, a widest joint not from
 * the slab's own to 100 mm. `place` as in laying_check; the border's own place is put behind it
 * ("borders[1].deep"). */
enum status borders_check(
        const struct plan_border *borders, size_t count, const char *place, struct error *err);

/* Refuses zones that cannot stand: more than ZONES, a level over 1 m up or down, a laying that
 * laying_check refuses where the zone is paved. The rings are for zone_rings_check of geom.h. */
enum status zones_check(
        const struct plan_zone *zones, size_t count, const char *place, struct error *err);

/* Refuses an edge that names a border which the plan has not. */
enum status plan_borders_check(const struct plan *plan, struct error *err);

/* Refuses an edge that names a channel which the plan has not, and a channel that lies along no
 * edge and whose two points are one. */
enum status plan_channels_check(const struct plan *plan, struct error *err);

/* Refuses (STATUS_PLAN) an edging out of limits: a unit not from 20 mm to 20 m (or 0), joint over
 * 100 mm; depth, foot, height, corner, haunch over 2 m, top over 1 m either way, strip over 1 m,
 * cement over 1000 kg/m3, density over 20000; a mitre without the depth, a least piece over the
 * unit, a haunch held higher than the unit is; a name over 200 bytes or not UTF-8. */
enum status edging_check(const struct plan_edging *edging, const char *place, struct error *err);

/* Refuses (STATUS_PLAN), naming the slabs, a repeat that does not tile: slabs of it that overlap
 * (with themselves moved by the steps), or whose areas do not add up to the repeat's. `place` as in
 * laying_check. */
enum status repeat_check(const struct plan_repeat *repeat, const char *place, struct error *err);

/* Refuses a mix without sizes, with more than MIX_SIZES, with a size out of reach or a share that
 * is not from 1 to 1000000, with one size twice, or with a seed not from 0 to 1000000000. */
enum status mix_check(const struct plan_mix *mix, const char *place, struct error *err);

/* Refuses (STATUS_PLAN) more than SURFACE_PLANES planes, one with an absurd fall (over 1:2) or
 * level (beyond 1 km), a fixed point out of reach, or build-up layers not from 0 to 2 m. */
enum status surface_check(const struct plan_surface *surface, const char *place, struct error *err);
enum status ground_check(const struct plan_ground *ground, const char *place, struct error *err);

#endif
