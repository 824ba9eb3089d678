/* places.c - what every place on the screen is called and for: one table. */
#include "actions.h"

static const struct {
	const char *name, *gist, *help;
} places[PLACES] = {
	[AT_OUTLINE] = { "Outline", "its shape, what stands along its sides, openings, zones",
	        "Draw the paving as you taped it. Start at a corner by the house wall: Enter drops "
	        "a corner; a typed length and an arrow key drop the next one at exactly that "
	        "distance. Close the ring, say what stands along each side, then go on with Tab. "
	        "Openings are cut out of the paving (w); zones are parts of it (g), dashed in the "
	        "sketch." },
	[AT_FALLS] = { "Falls", "the way and the strength of the fall, levels, water",
	        "Say how the surface falls and at which level it lies. Arrows run the way the "
	        "water runs. Several planes meet in valleys or ridges. Levels are heights over "
	        "the job's datum. What the staff reads is for the instrument set under g, else "
	        "for the last set-up of the levelling book." },
	[AT_LAYING] = { "Laying", "slab, bond, start line",
	        "Choose slab and bond, and move the start line until cuts and slivers please you. "
	        "The pane tells about the slab under the cursor. In the sketch lines or dots are "
	        "joints and whole slabs are empty; the pane shows what marks cut pieces, slivers "
	        "and what is made up in the joint. Where there are zones, n and p say for which "
	        "part you choose." },
	[AT_EDGING] = { "Edging", "kerbs and borders",
	        "Say what stands along each edge, what is bought for it, and which border courses "
	        "run along it. In the sketch an edge has the letter of what stands there, and "
	        "behind it the number of its border: K1 is a kerb with border 1." },
	[AT_PLANTERS] = { "Planters", "walls that hold soil",
	        "Walls of blocks that hold soil: their run, block, courses, ties, profile, footing "
	        "and fill." },
	[AT_STEPS] = { "Steps", "flights down from the paving",
	        "Flights of steps down from the paving: rise, risers, going, units." },
	[AT_GROUND] = { "Ground", "levels read on site, what to dig",
	        "Read the staff and book the readings (b), or type levels that are known (v, l): "
	        "both make the ground as it was found, and what has to be dug to the formation "
	        "follows. Between three levels the ground is taken as plane; beyond them it goes "
	        "on, and the pane says how far. Have buried services located before digging." },
	[AT_ORDER] = { "Order", "what to buy",
	        "What to order, beside the common rule of thumb, and how sure the number is." },
	[AT_SETOUT] = { "Set-out", "baseline, pegs, diagonals, staff readings",
	        "From a baseline to the ground: n and p go from corner to corner, and the pane "
	        "says how far along the baseline it lies, how far square off, and what tapes and "
	        "staff read there; and the same for the cursor. Diagonals prove it square." },
	[AT_CHECK] = { "Check", "what was built, beside the plan",
	        "Measured levels and places of what was built, compared with the plan and the rule "
	        "set's tolerance. What is out of it has a ! in the sketch, the table and the pane. "
	        "Three points in a line stand for a straightedge laid over them." },
	[AT_VARIANTS] = { "Variants", "other ideas, side by side; other jobs",
	        "Other ideas for the same job. Copy one, change it, and set "
	        "them side by side." },
	[AT_CLIENTS] = { "Clients", "", "For whom you plan. Open a client to see the jobs." },
	[AT_JOBS] = { "Jobs", "", "The jobs of this client. Opening one opens its first variant." },
	[AT_STARTS] = { "Start lines", "",
	        "The best places for the first slab. The list gets better while you look, and says "
	        "when it is finished. Its columns: slivers, slabs to order, cut pieces." },
	[AT_TABLE] = { "Table", "",
	        "A list that is typed row by row. Every cell is saved as it is taken. A place is "
	        "typed as two lengths: across ; up, from 0 ; 0. Figures in strong print are worked "
	        "out." },
	[AT_CHOICE] = { "Choice", "", "Mark a row and take it with Enter." },
	[AT_ELEVATION] = { "Elevation", "",
	        "A leg of the wall from outside, course by course: to scale across, and each "
	        "course in as many rows. Or a flight of steps from the side, to scale." },
	[AT_COMPARE] = { "Compare", "",
	        "Variants side by side. Rows that differ are marked, and among them what is "
	        "fewest, least, lightest or cheapest is called so." },
	[AT_HELP] = { "Help", "", "" },
};

const char *place_name(enum place place)
{
	return places[place].name;
}

const char *place_gist(enum place place)
{
	return places[place].gist;
}

const char *place_help(enum place place)
{
	return places[place].help;
}
