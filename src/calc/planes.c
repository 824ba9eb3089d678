/* planes.c - planes from levels, lines and falls. */
#include "slabwright/surface_plane.h"

#include <math.h>

static const double LEAST_APART_UM = 1000, PI = 3.14159265358979323846;

/* A plane at a level whose steepest way down is `down` (um per um, pointing downhill). */
static enum status plane_down(struct plane_level at, double down_x, double down_y,
        struct plan_plane *out, struct error *err)
{
	double fall = hypot(down_x, down_y) * 1e6, toward = atan2(down_y, down_x) * 180 / PI;

	if (!(fall <= PLANE_FALL_MOST))
		return error_set(err, STATUS_USAGE,
		        "that falls %.0f mm per m; at most 500 mm per m (1:2): check the levels "
		        "and "
		        "the points",
		        fall / 1000);
	if (toward < 0)
		toward += 360;
	*out = (struct plan_plane){ at.x_um, at.y_um, at.level_um,
		fall > 0 ? llround(toward * 1e6) % (360 * UDEG_PER_DEG) : 0, llround(fall) };
	return STATUS_OK;
}

enum status plane_from_fall(struct plane_level at, int64_t toward_udeg, int64_t fall_um_per_m,
        struct plan_plane *out, struct error *err)
{
	if (fall_um_per_m < 0 || fall_um_per_m > PLANE_FALL_MOST)
		return error_set(err, STATUS_USAGE,
		        "the fall is %.1f mm per m; give from 0 to 500 mm per m (1:2), and turn "
		        "the "
		        "direction round for a fall the other way",
		        (double)fall_um_per_m / 1000);
	*out = (struct plan_plane){ at.x_um, at.y_um, at.level_um, toward_udeg, fall_um_per_m };
	return STATUS_OK;
}

enum status plane_from_two(
        struct plane_level a, struct plane_level b, struct plan_plane *out, struct error *err)
{
	double dx = (double)(b.x_um - a.x_um), dy = (double)(b.y_um - a.y_um), away = hypot(dx, dy),
	       drop = (double)(a.level_um - b.level_um);

	if (away < LEAST_APART_UM)
		return error_set(err, STATUS_USAGE,
		        "the two levels lie at one point; give points at least 1 mm apart");
	return plane_down(a, drop * dx / away / away, drop * dy / away / away, out, err);
}

enum status plane_from_three(struct plane_level a, struct plane_level b, struct plane_level c,
        struct plan_plane *out, struct error *err)
{
	double ux = (double)(b.x_um - a.x_um), uy = (double)(b.y_um - a.y_um),
	       vx = (double)(c.x_um - a.x_um), vy = (double)(c.y_um - a.y_um),
	       longest = fmax(hypot(ux, uy), fmax(hypot(vx, vy), hypot(vx - ux, vy - uy))),
	       cross = ux * vy - uy * vx, zu = (double)(b.level_um - a.level_um),
	       zv = (double)(c.level_um - a.level_um);

	/* The height of their triangle over its longest side. */
	if (fabs(cross) < LEAST_APART_UM * longest || longest == 0)
		return error_set(err, STATUS_USAGE,
		        "the three levels lie on one line, so the fall across it is not known; "
		        "give "
		        "one to the side");
	return plane_down(a, -(zu * vy - zv * uy) / cross, -(zv * ux - zu * vx) / cross, out, err);
}

enum status plane_from_line(struct plane_level a, struct plane_level b, bool to_left,
        int64_t fall_um_per_m, struct plan_plane *out, struct error *err)
{
	double dx = (double)(b.x_um - a.x_um), dy = (double)(b.y_um - a.y_um), away = hypot(dx, dy),
	       fall = (double)fall_um_per_m * 1e-6 * (to_left ? 1 : -1);

	if (away < LEAST_APART_UM)
		return error_set(err, STATUS_USAGE,
		        "the line held level has no length; give ends at least 1 mm apart");
	if (fall_um_per_m < 0)
		return error_set(err, STATUS_USAGE,
		        "the fall is under 0; give the other side for a fall the other way");
	return plane_down(a, -dy / away * fall, dx / away * fall, out, err);
}

/* How far downhill of the plane's own point a point lies, um. */
static double downhill_of(const struct plan_plane *plane, struct plane_level p)
{
	double angle = (double)plane->toward_udeg * 1e-6 * PI / 180;

	return (double)(p.x_um - plane->x_um) * cos(angle) +
	       (double)(p.y_um - plane->y_um) * sin(angle);
}

enum status plane_shifted(const struct plan_plane *plane, struct plane_level meet,
        struct plan_plane *out, struct error *err)
{
	double level = (double)meet.level_um +
	               (double)plane->fall_um_per_m * 1e-6 * downhill_of(plane, meet);

	if (fabs(level) > (double)COORD_LIMIT_UM)
		return error_set(err, STATUS_USAGE,
		        "to meet that point the plane would lie beyond 1 km; check its level");
	*out = *plane;
	out->level_um = llround(level);
	return STATUS_OK;
}

enum status plane_tilted(const struct plan_plane *plane, struct plane_level meet,
        struct plan_plane *out, struct error *err)
{
	const struct plane_level at = { plane->x_um, plane->y_um, plane->level_um };
	double away = downhill_of(plane, meet),
	       angle = (double)plane->toward_udeg * 1e-6 * PI / 180,
	       fall = ((double)plane->level_um - (double)meet.level_um) / away;
	int64_t toward = plane->toward_udeg;
	enum status st;

	if (fabs(away) < LEAST_APART_UM)
		return error_set(err, STATUS_USAGE,
		        "the point lies on the line that keeps its level, so no fall meets it; "
		        "shift "
		        "the plane, or choose a point up or down the fall");
	if ((st = plane_down(at, fall * cos(angle), fall * sin(angle), out, err)) != STATUS_OK)
		return st;
	if (fall < 0)
		toward += toward >= 180 * UDEG_PER_DEG ? -180 * UDEG_PER_DEG : 180 * UDEG_PER_DEG;
	out->toward_udeg = toward;
	return STATUS_OK;
}
