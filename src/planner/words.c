/* words.c - the reason something was refused, as the crew says it.
 *
 * Checks name a value as the plan document does ("slab.pack: ..."), which is right for a file. On
 * the screen it is named as in the pane, and the sentence starts with a capital letter; of a zone's
 * value ("zones[0].laying.slab.pack: ...") the zone stands before it. */
#include "app.h"

#include <stdio.h>
#include <string.h>

static const struct {
	const char *member, *words;
} names[] = {
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
	{ "bedding", "Bedding" },
	{ "sub_base", "Sub-base" },
	{ "benchmark", "Benchmark level" },
	{ "backsight", "Backsight" },
	{ "deep", "Courses" },
	{ "widest_joint", "Widest joint on curves" },
};

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

	text = past_place(text);
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
