/* glyph.c - two sets of characters, chosen by a flag. */
#include "glyph.h"

static const wchar_t glyphs[GLYPHS][2] = {
	[GLYPH_ALONG] = { L'\u2500', L'-' },
	[GLYPH_UPRIGHT] = { L'\u2502', L'|' },
	[GLYPH_RISING] = { L'\u2571', L'/' },
	[GLYPH_FALLING] = { L'\u2572', L'\\' },
	[GLYPH_CORNER] = { L'\u25cf', L'o' },
	[GLYPH_CHOSEN] = { L'\u25c6', L'@' },
	[GLYPH_CURSOR] = { L'\u253c', L'+' },
	[GLYPH_GRID] = { L'\u00b7', L'.' },
	[GLYPH_TICK] = { L'\u2575', L'\'' },
	[GLYPH_BAR] = { L'\u2506', L'|' },
	[GLYPH_JOINT_LEFT] = { L'\u258f', L'|' },
	[GLYPH_JOINT_BELOW] = { L'\u2581', L'_' },
	[GLYPH_CUT] = { L'\u2591', L':' },
	[GLYPH_SLIVER] = { L'!', L'!' },
	[GLYPH_MADE_UP] = { L'\u223c', L'~' },
	[GLYPH_START] = { L'\u2316', L'*' },
	[GLYPH_FIXED] = { L'\u25b2', L'&' },
	[GLYPH_FLOW] = { L'\u2219', L'.' },
	[GLYPH_PATH] = { L'\u203a', L'>' },
	[GLYPH_DIFFERS] = { L'\u2260', L'*' },
	[GLYPH_ZONE_ALONG] = { L'\u254c', L'-' },
	[GLYPH_ZONE_UPRIGHT] = { L'\u254e', L';' },
	[GLYPH_ZONE_CORNER] = { L'\u25cb', L'x' },
	[GLYPH_GULLY] = { L'\u25ce', L'O' },
	[GLYPH_SOAKAWAY] = { L'\u25a6', L'%' },
	[GLYPH_POND] = { L'\u2248', L'~' },
	[GLYPH_SPOT] = { L'\u00d7', L'x' },
	[GLYPH_PEG] = { L'\u25bf', L'V' },
	[GLYPH_TIE] = { L'\u25ac', L'#' },
	[GLYPH_WEEP] = { L'\u25cb', L'o' },
	[GLYPH_CAP] = { L'\u2550', L'_' },
	[GLYPH_FIXING] = { L'\u25be', L'v' },
	[GLYPH_SURFACE] = { L'\u2248', L'=' },
};

static const struct {
	wchar_t line[2], upright[2];
	char letter;
} kinds[EDGE_KINDS] = {
	[EDGE_HOUSE_WALL] = { { L'\u2593', L'#' }, { L'\u2593', L'#' }, 'W' },
	[EDGE_KERB] = { { L'\u2550', L'=' }, { L'\u2551', L'"' }, 'K' },
	[EDGE_HAUNCH] = { { L'\u2500', L'-' }, { L'\u2502', L'|' }, 'H' },
	[EDGE_PLANTER] = { { L'\u2592', L'%' }, { L'\u2592', L'%' }, 'P' },
	[EDGE_STEPS] = { { L'\u2261', L's' }, { L'\u2261', L's' }, 'S' },
	[EDGE_EXISTING_PAVING] = { { L'\u2237', L':' }, { L'\u2237', L':' }, 'E' },
	[EDGE_OPEN] = { { L'\u2504', L'.' }, { L'\u250a', L'.' }, 'O' },
};

static const wchar_t arrows[8][2] = {
	{ L'\u2192', L'>' },
	{ L'\u2197', L'/' },
	{ L'\u2191', L'^' },
	{ L'\u2196', L'\\' },
	{ L'\u2190', L'<' },
	{ L'\u2199', L'/' },
	{ L'\u2193', L'v' },
	{ L'\u2198', L'\\' },
};

wchar_t glyph(bool ascii, enum glyph which)
{
	return glyphs[which][ascii ? 1 : 0];
}

wchar_t glyph_dots(unsigned dots)
{
	return dots ? (wchar_t)(0x2800 + dots) : L' ';
}

wchar_t kind_glyph(bool ascii, enum edge_kind kind, bool upright)
{
	return (upright ? kinds[kind].upright : kinds[kind].line)[ascii ? 1 : 0];
}

char kind_letter(enum edge_kind kind)
{
	return kinds[kind].letter;
}

wchar_t arrow_glyph(bool ascii, int octant)
{
	return arrows[octant & 7][ascii ? 1 : 0];
}
