/* words.c - the reason something was refused, as the crew says it.
 *
 * Checks name a value as the plan document does ("slab.pack: ..."), which is right for a file. On
 * the screen it is named as in the pane, and the sentence starts with a capital letter; of a zone's
 * value ("zones[0].laying.slab.pack: ...") the zone stands before it. */
#include "app.h"

#include <stdio.h>
#include <string.h>

struct name {
	const char *member, *words;
};

static const struct name names[] = {
	{ "slab.length", "Slab length" },
	{ "slab.width", "Slab width" },
	{ "slab.thickness", "Slab thickness" },
	{ "slab.joint", "Joint" },
	{ "slab.pack", "Pack" },
	{ "slab.density", "Density" },
	{ "slab.price", "Price of a slab" },
	{ "start.x", "Start point, across" },
	{ "start.y", "Start point, up" },
	{ "kerf", "Saw kerf" },
	{ "fill_width", "Fill width" },
	{ "sliver_width", "Sliver width" },
	{ "offset", "Offset of the courses" },
	{ "rotation", "Turn of the bond" },
	{ "breakage", "Breakage allowance" },
	{ "x", "Place of the level, across" },
	{ "y", "Place of the level, up" },
	{ "level", "Level" },
	{ "fall", "Fall" },
	{ "toward", "Way the water runs" },
	{ "fixed.x", "Fixed point, across" },
	{ "fixed.y", "Fixed point, up" },
	{ "fixed.level", "Level of the fixed point" },
	{ "edging.unit", "Length of a unit" },
	{ "edging.joint", "Joint" },
	{ "edging.depth", "Depth across the edge" },
	{ "edging.corner", "Corner piece" },
	{ "edging.foot", "Depth at its foot" },
	{ "edging.height", "Height" },
	{ "edging.top", "Top over the paving" },
	{ "edging.cement", "Cement in it" },
	{ "edging.strip", "Base strip, thickness" },
	{ "edging.strip_beyond", "Base strip beyond the unit" },
	{ "edging.haunch", "Haunch, width at its foot" },
	{ "edging.held", "Haunch reaches up" },
	{ "edging.density", "Density" },
	{ "edging.price", "Price of one unit" },
	{ "edging.name", "Name" },
	{ "edging.mitred", "Corners" },
	{ "edging.least", "Shortest piece" },
	{ "bedding", "Bedding" },
	{ "sub_base", "Sub-base" },
	{ "benchmark", "Benchmark level" },
	{ "backsight", "Backsight" },
	{ "deep", "Courses" },
	{ "widest_joint", "Widest joint on curves" },
	{ "damp_proof_course", "Level of the damp-proof course" },
	/* water */
	{ "minutes", "Minutes" },
	{ "runoff", "What runs off (1 is 100 %)" },
	{ "surface_rate", "What the surface takes (1e-6 m/s is 3.6 mm/h)" },
	{ "base_voids", "Voids of the sub-base (1 is 100 %)" },
	{ "soil_rate", "What the soil takes (1e-6 m/s is 3.6 mm/h)" },
	{ "soakaway.x", "Middle of the soakaway, across" },
	{ "soakaway.y", "Middle of the soakaway, up" },
	{ "soakaway.length", "Length of the soakaway" },
	{ "soakaway.width", "Width of the soakaway" },
	{ "soakaway.depth", "Depth of the soakaway" },
	{ "soakaway.voids", "Voids of the soakaway (1 is 100 %)" },
	{ "soakaway.soil_rate", "What the soil takes (1e-6 m/s is 3.6 mm/h)" },
	/* site */
	{ "start", "Level of the first point" },
	{ "close", "Level of the last point" },
	{ "allow", "Misclosure allowed" },
	{ "over_dig", "Dig beyond the outline" },
	{ "topsoil", "Topsoil" },
	{ "bulking", "Bulking (1 is 100 %)" },
	{ "compaction", "Compaction (1 is 100 %)" },
};

static const struct name planter_names[] = {
	{ "name", "name" },
	{ "block.name", "name of the block" },
	{ "block.length", "block length" },
	{ "block.width", "block width" },
	{ "block.height", "block height" },
	{ "block.joint", "joint" },
	{ "block.density", "density of the block" },
	{ "block.price", "price of one block" },
	{ "base", "underside of the first course" },
	{ "tie", "ties at most apart" },
	{ "cap.name", "profile on top" },
	{ "cap.length", "length of a profile" },
	{ "cap.fixing", "fixings at most apart" },
	{ "cap.price", "price of a profile" },
	{ "footing.width", "footing width" },
	{ "footing.depth", "footing depth" },
	{ "footing.cement", "cement in it" },
	{ "fill", "soil, height" },
	{ "gravel", "gravel at the bottom" },
	{ "weep", "drainage holes at most apart" },
	{ "soil.density", "density of the soil" },
	{ "soil.friction", "friction of the soil" },
	{ "soil.back_slope", "slope of the soil" },
	{ "soil.surcharge", "load on the soil" },
	{ "soil.base_friction", "friction on the bed" },
	{ "soil.bearing", "what the ground bears" },
	{ "points", "corners" },
};

static const struct name flight_names[] = {
	{ "name", "name" },
	{ "x", "middle of the top nosing, across" },
	{ "y", "middle of the top nosing, up" },
	{ "toward", "way down" },
	{ "bottom", "level at the foot" },
	{ "top", "level at the top" },
	{ "tread", "thickness of the tread's slab" },
	{ "overhang", "tread over its riser" },
	{ "tread_fall", "fall of a tread" },
	{ "landing", "landing at the foot" },
	{ "flank", "flank walls" },
	{ "unit.name", "name of the unit" },
	{ "unit.length", "length of the unit" },
	{ "unit.depth", "depth of the unit" },
	{ "unit.height", "height of the unit" },
	{ "unit.density", "density of the unit" },
	{ "unit.price", "price of one" },
};

/* Of what lies in the plan: rows of the book, levels, pegs, measured points. */
static const struct name site_names[] = {
	{ "name", "name" },
	{ "x", "across" },
	{ "y", "up" },
	{ "level", "level" },
	{ "at.x", "found at, across" },
	{ "at.y", "found at, up" },
	{ "back", "backsight" },
	{ "inter", "intermediate sight" },
	{ "fore", "foresight" },
};

static const struct name drain_names[] = {
	{ "name", "name" },
	{ "x", "across" },
	{ "y", "up" },
	{ "from.x", "first end, across" },
	{ "from.y", "first end, up" },
	{ "to.x", "last end, across" },
	{ "to.y", "last end, up" },
	{ "width", "clear width" },
	{ "depth", "clear depth" },
	{ "fall", "fall of its floor" },
	{ "roughness", "roughness n" },
	{ "capacity", "what it takes at most" },
	{ "minutes", "minutes" },
	{ "mm_per_h", "intensity" },
};

#define NAMES(of) of, sizeof of / sizeof *of
static const struct {
	const char *list, *one;
	const struct name *names;
	size_t count;
} things[] = {
	{ "planters[", "Planter", NAMES(planter_names) },
	{ "steps[", "Flight", NAMES(flight_names) },
	{ "site.book.readings[", "Line", NAMES(site_names) },
	{ "site.spots[", "Point", NAMES(site_names) },
	{ "site.pegs[", "Peg", NAMES(site_names) },
	{ "site.measured[", "Point", NAMES(site_names) },
	{ "water.rain.rows[", "Row", NAMES(drain_names) },
	{ "water.channels[", "Channel", NAMES(drain_names) },
	{ "water.gullies[", "Gully", NAMES(drain_names) },
};

/* "planters[0].fill: ..." as "Planter 1, soil, height: ..."; a point of it by its number. False for
 * what is of no such list. */
static bool thing_words_of(char *buf, size_t size, const char *text)
{
	for (size_t i = 0; i < sizeof things / sizeof *things; i++) {
		size_t n = strlen(things[i].list);
		int number, point, bytes = 0;

		if (strncmp(text, things[i].list, n) != 0)
			continue;
		if (sscanf(text + n, "%d]:%n", &number, &bytes) == 1 && bytes) {
			snprintf(
			        buf, size, "%s %d:%s", things[i].one, number + 1, text + n + bytes);
			return true;
		}
		if (sscanf(text + n, "%d].%n", &number, &bytes) != 1 || !bytes)
			continue;
		text += n + (size_t)bytes;
		n = strcspn(text, ":");
		if (sscanf(text, "points[%d]", &point) == 1) {
			snprintf(buf, size, "%s %d, corner %d%s", things[i].one, number + 1,
			        point + 1, text + n);
			return true;
		}
		for (size_t k = 0; k < things[i].count; k++) {
			const struct name *name = &things[i].names[k];

			if (strlen(name->member) != n || strncmp(text, name->member, n) != 0)
				continue;
			snprintf(buf, size, "%s %d, %s%s", things[i].one, number + 1, name->words,
			        text + n);
			return true;
		}
		snprintf(buf, size, "%s %d, %s", things[i].one, number + 1, text);
		return true;
	}
	return false;
}

/* Past "planes[0]." or "borders[2].", which the screen says otherwise. */
static const char *past_place(const char *text)
{
	static const char *const lists[] = { "planes[", "borders[" };

	for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
		size_t n = strlen(lists[i]), digits;

		if (strncmp(text, lists[i], n) != 0)
			continue;
		digits = strspn(text + n, "0123456789");
		if (strncmp(text + n + digits, "].", 2) == 0)
			return text + n + digits + 2;
	}
	return text;
}

/* Past the part of the document whose values the screen calls by their own names. */
static const char *past_part(const char *text)
{
	static const char *const parts[] = { "site.earth.", "site.book.", "site.", "water.rain.",
		"water." };

	for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
		if (strncmp(text, parts[i], strlen(parts[i])) == 0)
			return text + strlen(parts[i]);
	return text;
}

/* Puts "Zone 1: " for a zone's place, and steps over it; the columns used. */
static size_t zone_place(char *buf, size_t size, const char **text)
{
	static const char laying[] = "laying.";
	int number, bytes = 0;

	if (sscanf(*text, "zones[%d].%n", &number, &bytes) != 1 || !bytes)
		return 0;
	*text += bytes;
	if (strncmp(*text, laying, sizeof laying - 1) == 0)
		*text += sizeof laying - 1;
	return (size_t)snprintf(buf, size, "Zone %d: ", number + 1);
}

char *crew_words(char *buf, size_t size, const char *text)
{
	size_t used;

	if (thing_words_of(buf, size, text))
		return buf;
	text = past_part(past_place(text));
	if ((used = zone_place(buf, size, &text)) >= size)
		return buf;
	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		size_t n = strlen(names[i].member);

		if (strncmp(text, names[i].member, n) != 0 || text[n] != ':')
			continue;
		snprintf(buf + used, size - used, "%s%s", names[i].words, text + n);
		return buf;
	}
	snprintf(buf + used, size - used, "%s", text);
	if (!used && buf[0] >= 'a' && buf[0] <= 'z')
		buf[0] = (char)(buf[0] - 'a' + 'A');
	return buf;
}
