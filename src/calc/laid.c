/* laid.c - asking what was laid: where a slab lies, which slab lies where. */
#include "slabwright/lay.h"

static const struct random_course *course_numbered(const struct laying *laid, int64_t number)
{
	int64_t at = laid->course_count ? number - laid->courses[0].number : -1;

	return at >= 0 && at < (int64_t)laid->course_count ? &laid->courses[at] : NULL;
}

struct point laid_corner(const struct laying *laid, struct slab_spot spot)
{
	const struct random_course *c;

	if (laid->pattern.count)
		return pattern_corner(&laid->pattern, spot);
	c = course_numbered(laid, spot.course);
	if (!c || spot.index < 0 || spot.index >= (int64_t)c->count)
		return (struct point){ 0, 0 };
	return (struct point){ (double)c->x_um[spot.index], (double)c->y_um };
}

struct point laid_size(const struct laying *laid, struct slab_spot spot)
{
	return pattern_size(&laid->pattern, spot.part);
}

/* The last of the course's slabs that begins at or before x. */
static bool slab_before(const struct random_course *c, double x, size_t *at)
{
	size_t lo = 0, hi = c->count;

	while (lo < hi) {
		size_t mid = lo + (hi - lo) / 2;

		if ((double)c->x_um[mid] <= x)
			lo = mid + 1;
		else
			hi = mid;
	}
	*at = lo - 1;
	return lo > 0;
}

static bool random_at(const struct laying *laid, struct point at, struct slab_spot *spot)
{
	size_t lo = 0, hi = laid->course_count, i;
	const struct random_course *c;
	struct point size;

	while (lo < hi) {
		size_t mid = lo + (hi - lo) / 2;

		if ((double)laid->courses[mid].y_um <= at.y)
			lo = mid + 1;
		else
			hi = mid;
	}
	if (!lo)
		return false;
	c = &laid->courses[lo - 1];
	if (!slab_before(c, at.x, &i))
		return false;
	*spot = (struct slab_spot){ c->size[i], c->number, (int64_t)i };
	size = laid_size(laid, *spot);
	return at.x - (double)c->x_um[i] <= size.x && at.y - (double)c->y_um <= size.y;
}

bool laid_at(const struct laying *laid, struct point at, struct slab_spot *spot)
{
	return laid->pattern.count ? pattern_at(&laid->pattern, at, spot)
	                           : random_at(laid, at, spot);
}

const char *piece_part_words(const struct piece *piece)
{
	return piece->standing ? ", standing" : "";
}
