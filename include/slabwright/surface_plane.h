/* surface_plane.h - planes of the finished surface from what a crew knows of them.
 *
 * Each works out a plane or refuses (STATUS_USAGE) with place and remedy; *out is then as it was.
 * Falls come out to a micrometre per metre and directions to a microdegree, so that a level ten
 * metres from the plane's point is met to 0.01 mm. Lengths and levels in um. */
#ifndef SLABWRIGHT_SURFACE_PLANE_H
#define SLABWRIGHT_SURFACE_PLANE_H

#include "slabwright/plan.h"

#define PLANE_FALL_MOST 500000 /* um per m: 1:2, as surface_check */

struct plane_level {
	int64_t x_um, y_um, level_um;
};

/* The level at a point, the direction of the fall and the fall. Refuses a fall under 0 or over 1:2.
 */
enum status plane_from_fall(struct plane_level at, int64_t toward_udeg, int64_t fall_um_per_m,
        struct plan_plane *out, struct error *err);

/* Falls straight from the higher of two levels to the lower; level across that line. Refuses points
 * under 1 mm apart and a fall over 1:2. */
enum status plane_from_two(
        struct plane_level a, struct plane_level b, struct plan_plane *out, struct error *err);

/* Through three levels. Refuses points that lie on a line to within 1 mm, and a fall over 1:2. */
enum status plane_from_three(struct plane_level a, struct plane_level b, struct plane_level c,
        struct plan_plane *out, struct error *err);

/* Holds the line from a to b (a kerb, a wall) level at a's level, and falls by fall_um_per_m to its
 * left, seen from a to b, or to its right. b's level means nothing. */
enum status plane_from_line(struct plane_level a, struct plane_level b, bool to_left,
        int64_t fall_um_per_m, struct plan_plane *out, struct error *err);

/* The same fall, raised or lowered to meet a point at its level. */
enum status plane_shifted(const struct plan_plane *plane, struct plane_level meet,
        struct plan_plane *out, struct error *err);

/* Keeps the level line through the plane's own point and makes the fall meet a point at its level;
 * the direction turns round where the point lies the other way. Refuses a point under 1 mm from
 * that line, and a fall over 1:2. */
enum status plane_tilted(const struct plan_plane *plane, struct plane_level meet,
        struct plan_plane *out, struct error *err);

#endif
