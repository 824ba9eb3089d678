/* actions.c - the table of keys. A new action is a row here and a function. */
#include "actions.h"
#include "form.h"
#include "zones.h"

#define ARROWS                                                                                     \
	{                                                                                          \
		KEY_OF_ARROW_LEFT, KEY_OF_ARROW_RIGHT, KEY_OF_ARROW_UP, KEY_OF_ARROW_DOWN          \
	}
#define FAST                                                                                       \
	{                                                                                          \
		KEY_OF_FAST_LEFT, KEY_OF_FAST_RIGHT, KEY_OF_FAST_UP, KEY_OF_FAST_DOWN              \
	}
#define DIGITS                                                                                     \
	{                                                                                          \
		'0', '1', '2', '3', '4', '5', '6', '7', '8', '9'                                   \
	}
#define SKETCH (ON_STAGES & ~ON(AT_VARIANTS))
#define BY_PARTS (ON(AT_LAYING) | ON(AT_ORDER))
#define LISTS (ON(AT_VARIANTS) | ON(AT_CLIENTS) | ON(AT_JOBS))

static bool usual(const struct app *app)
{
	return app->mode == MODE_USUAL;
}

static bool carrying(const struct app *app)
{
	return app->mode == MODE_CARRY;
}

static bool nudging(const struct app *app)
{
	return app->mode == MODE_NUDGE;
}

static bool letting_go(const struct app *app)
{
	return app->mode != MODE_USUAL;
}

static bool drawing(const struct app *app)
{
	return usual(app) && draft_ring(&app->plan) != SIZE_MAX;
}

static bool blank(const struct app *app)
{
	return usual(app) && app->plan.ring_count == 0;
}

static bool draws(const struct app *app)
{
	return drawing(app) || blank(app);
}

static bool drawn(const struct app *app)
{
	return usual(app) && !drawing(app) && !blank(app);
}

/* A rectangle is the outline, or what has only its first corner. */
static bool squares(const struct app *app)
{
	return usual(app) && (blank(app) || ring_is_begun(app));
}

static bool has_parts(const struct app *app)
{
	return usual(app) && app->plan.zone_count > 0;
}

/* Where the part worked on has slabs. */
static bool lays(const struct app *app)
{
	return usual(app) && paved_here(app);
}

static bool shifts(const struct app *app)
{
	return lays(app) && laying_here(app)->bond == BOND_STRETCHER;
}

static bool one_slab(const struct app *app)
{
	return lays(app) && of_one_slab(app);
}

static bool by_choice_of_pack(const struct app *app)
{
	return lays(app) && laying_here(app)->bond != BOND_COURSED_RANDOM;
}

static bool has_rows(const struct app *app)
{
	return app->place == AT_CHOICE ? app->choice.count > 0 : app->list.count > 0;
}

/* Moving: help and comparison are read, lists need rows. */
static bool has_lines(const struct app *app)
{
	return app->place == AT_HELP || app->place == AT_COMPARE || has_rows(app);
}

/* Undo stays out of the way where one of several values is chosen. */
static bool not_chosen_from(const struct app *app)
{
	return app->place != AT_CHOICE || form_is_open(app);
}

static bool has_letters(const struct app *app)
{
	return app->choice.count > 0 && row_letter(&app->choice.rows[0]) != 0;
}

static bool can_go_back(const struct app *app)
{
	if (app->place == AT_VARIANTS)
		return app->list.all != NULL;
	return app->place != AT_CLIENTS || app->variant || app->list.all;
}

static bool has_border(const struct app *app)
{
	const struct view *v = &app->view;

	return drawn(app) && v->ring < app->plan.ring_count &&
	       app->plan.rings[v->ring].nodes[v->at].border != 0;
}

static bool has_rings(const struct app *app)
{
	return usual(app) && !blank(app);
}

const struct action actions[] = {
	/* Outline */
	{ { KEY_OF_ENTER }, "Enter", ON(AT_OUTLINE), "corner",
	        "Drop a corner at the cursor. On the first corner of the ring: close it. In a "
	        "closed outline: choose the corner or edge under the cursor. While a "
	        "corner is carried: put it down.",
	        act_enter, draws, "put down" },
	{ DIGITS, "0-9", ON(AT_OUTLINE), "length",
	        "Type the taped length, then an arrow key for its direction (or Enter, to type an "
	        "angle). While a corner is carried: its exact place.",
	        act_length, draws, "exact place" },
	{ { 'r' }, "r", ON(AT_OUTLINE), "rectangle",
	        "Type width x height: of the outline when there is none yet; of an opening or zone "
	        "that has only its first corner, from there; else of an opening, with its lower "
	        "left corner at the cursor.",
	        act_rectangle, squares, NULL },
	{ { 'c' }, "c", ON(AT_OUTLINE), "close",
	        "Close the ring that is being drawn, back to its first corner.", act_close, drawing,
	        NULL },
	{ { 'n', 'p' }, "n p", SKETCH & ~BY_PARTS, "corner",
	        "Choose the next or the previous corner, over all rings; the edge that leaves it "
	        "is chosen with it.",
	        act_next_corner, drawn, NULL },
	{ { 'n', 'p' }, "n p", BY_PARTS, "part",
	        "Choose what slab, bond and start are chosen for: the field, or the next or the "
	        "previous zone. The pane's head says which it is.",
	        act_next_part, has_parts, NULL },
	{ { 'N' }, "N", SKETCH, NULL,
	        "Choose the next ring: the outline, opening 1, opening 2 ..., and at Outline zone "
	        "1 ...",
	        act_next_ring, NULL, NULL },
	{ { 'm' }, "m", ON(AT_OUTLINE), "move",
	        "Pick up the chosen corner: arrows carry it, Enter puts it down, Esc leaves it "
	        "where it was.",
	        act_carry, drawn, NULL },
	{ { 't' }, "t", ON(AT_OUTLINE), "length",
	        "Set the taped length of the chosen edge. Its far end moves along it; the next "
	        "edge moves with that where square corners stay square so.",
	        act_true_length, drawn, NULL },
	{ { 's' }, "s", ON(AT_OUTLINE) | ON(AT_EDGING), "side",
	        "Say what stands along the chosen edge: house wall, kerb, planter ...", act_kind,
	        drawn, NULL },
	{ { 'w' }, "w", ON(AT_OUTLINE), "opening",
	        "Start an opening (drain cover, tree, bed) with its first corner at the cursor, "
	        "inside the paving; then draw it as the outline was drawn.",
	        act_opening, drawn, NULL },
	{ { 'g' }, "g", ON(AT_OUTLINE), "zone",
	        "Start a zone at the cursor: a part of the paving with a slab, bond or level of "
	        "its "
	        "own, or without slabs (gravel, planting). Draw it as the outline was drawn; it "
	        "may reach over the paving's edge or lie on it.",
	        act_zone, drawn, NULL },
	{ { 'a' }, "a", ON(AT_OUTLINE), "arc",
	        "Bend the chosen edge to an arc by its rise: the height of the arc over its chord. "
	        "0 makes it straight, minus bends it inward.",
	        act_arc, drawn, NULL },
	{ { 'i' }, "i", ON(AT_OUTLINE), "split",
	        "Split the chosen edge by a new corner: beside the cursor when that is near the "
	        "edge, else in its middle.",
	        act_split, drawn, NULL },
	{ { 'x' }, "x", ON(AT_OUTLINE), "place",
	        "Type the exact place of the chosen corner: across and up from 0, 0.", act_position,
	        drawn, NULL },
	{ { 'd', KEY_OF_DELETE }, "d", ON(AT_OUTLINE), "delete",
	        "Delete the chosen corner; while a ring is drawn: its last one.", act_delete_corner,
	        has_rings, NULL },
	{ { 'D' }, "D", ON(AT_OUTLINE), NULL,
	        "Delete the chosen opening or zone, or the ring being drawn, or the outline when "
	        "it has neither.",
	        act_delete_ring, NULL, NULL },
	{ { KEY_OF_ENTER }, "Enter", ON(AT_FALLS) | ON(AT_EDGING) | ON(AT_SETOUT), NULL,
	        "Choose the corner or edge under the cursor.", act_enter, NULL, NULL },
	/* Falls */
	{ { 's' }, "s", ON(AT_FALLS), "fall",
	        "Set the fall: 15 (mm a metre), 1.5 % or 1:60. The first time, level 0 comes to "
	        "the house wall, or to the cursor where there is none.",
	        act_fall, NULL, NULL },
	{ { 'w' }, "w", ON(AT_FALLS), "way",
	        "Set the way the water runs: arrow keys give or turn it, or type degrees (0 right, "
	        "90 up, anticlockwise).",
	        act_direction, NULL, NULL },
	{ { 'v' }, "v", ON(AT_FALLS), "level",
	        "Set the level of the surface at the cursor; the whole plane rises or sinks with "
	        "it.",
	        act_level, NULL, NULL },
	{ { 'm' }, "m", ON(AT_FALLS), "meet",
	        "Name a fixed point at the cursor that the paving must meet (threshold, path), and "
	        "its level. Once there is one: raise the plane or tilt its fall so that it meets, "
	        "or choose another point.",
	        act_fixed, NULL, NULL },
	{ { 'M' }, "M", ON(AT_FALLS), NULL, "Take the fixed point away.", act_fixed_gone, NULL,
	        NULL },
	{ { 'b' }, "b", ON(AT_FALLS), "planes",
	        "The surface's planes: choose one, add one, hold an edge level, and say whether "
	        "they meet in valleys or ridges.",
	        act_planes, NULL, NULL },
	{ { 'c' }, "c", ON(AT_FALLS), "drains",
	        "What takes the water: channels along edges or lines, gullies, a soakaway.",
	        act_drains, drawn, NULL },
	{ { 'r' }, "r", ON(AT_FALLS), "rain",
	        "Choose or type the rain, and what of it runs off: then flows are worked out.",
	        act_rain, NULL, NULL },
	{ { 'a' }, "a", ON(AT_FALLS), "areas",
	        "Draw which part of the paving drains where, by letters that the pane lists; or "
	        "the "
	        "arrows again.",
	        act_areas, drawn, NULL },
	{ { 'x' }, "x", ON(AT_FALLS), "known levels",
	        "Fix the chosen plane by two or three levels at places you know.", act_known_levels,
	        drawn, NULL },
	{ { 'i' }, "i", ON(AT_FALLS), "contours",
	        "Draw contour lines: type the height between them, 0 for none.", act_contours,
	        drawn, NULL },
	{ { 'd' }, "d", ON(AT_FALLS), "damp course",
	        "Type the level of the house's damp-proof course: the paving stays under it by "
	        "what the rule set says.",
	        act_dpc, NULL, NULL },
	{ { 't' }, "t", ON(AT_FALLS), "rules",
	        "Choose the rule set whose limits the warnings use. Local codes and licensed "
	        "practice come first.",
	        act_rules, NULL, NULL },
	{ { 'g' }, "g", ON(AT_FALLS), "ground",
	        "Set bedding and sub-base, and the instrument: benchmark level and backsight, for "
	        "staff readings.",
	        act_ground, NULL, NULL },
	/* Laying */
	{ { KEY_OF_ENTER }, "Enter", ON(AT_LAYING), "done",
	        "Leave the start line where it is. While it is not moved: choose the part under "
	        "the cursor, as n and p do.",
	        act_part_here, nudging, NULL },
	{ { 'c' }, "c", ON(AT_LAYING), "slab", "Choose a slab from the catalogue.", act_slab,
	        one_slab, NULL },
	{ { 't' }, "t", ON(AT_LAYING), "size", "Type a slab's length x width in mm.", act_size,
	        one_slab, NULL },
	{ { 'b' }, "b", ON(AT_LAYING), "bond",
	        "Choose the bond: of one slab, mixed sizes, or a coursed random pack.", act_bond,
	        lays, NULL },
	{ { 'o' }, "o", ON(AT_LAYING), "offset",
	        "Set how far each course of stretcher bond shifts, as a part of a slab: 1/2, 1/3, "
	        "0.25.",
	        act_offset, shifts, NULL },
	{ { 'r' }, "r", ON(AT_LAYING), "turn",
	        "Turn the bond by degrees, anticlockwise, about the start point.", act_rotation,
	        lays, NULL },
	{ { 'm' }, "m", ON(AT_LAYING), "start line",
	        "Move the start line: arrows nudge it by a step, digits set the step, Enter or Esc "
	        "ends.",
	        act_nudge, lays, NULL },
	{ { 's' }, "s", ON(AT_LAYING), "best starts",
	        "Rank the starts of the field: fewest slivers, then fewest slabs to order, fewest "
	        "cuts, widest smallest piece, best balance.",
	        act_starts, usual, NULL },
	{ { 'g' }, "g", ON(AT_LAYING), "joint", "Set the width of the joint (gap) in mm.",
	        act_joint, lays, NULL },
	{ DIGITS, "0-9", ON(AT_LAYING), "step",
	        "While the start line is moved: type the step of an arrow key, in mm.", nudge_step,
	        nudging, NULL },
	{ { 'e' }, "e", ON(AT_LAYING), NULL,
	        "Start the slabs at the cursor: the lower left corner of a slab comes there.",
	        act_start_here, NULL, NULL },
	{ { 'x' }, "x", ON(AT_LAYING), NULL, "Type the exact start point: across and up from 0, 0.",
	        act_start, NULL, NULL },
	/* Edging */
	{ { 'e' }, "e", ON(AT_EDGING), "unit",
	        "Choose the unit bought along edges of the chosen edge's kind.", act_unit, NULL,
	        NULL },
	{ { 'b' }, "b", ON(AT_EDGING), "border",
	        "Choose the border courses along the chosen edge: none, one of the plan's, or a "
	        "new one; and lay the same all round, or along each edge of its kind.",
	        act_border, drawn, NULL },
	{ { 'i' }, "i", ON(AT_EDGING), "its values",
	        "All values of the chosen edge's border: slab, lay, courses, corners, joints on "
	        "curves, price. They hold for every edge that has it.",
	        act_border_values, has_border, NULL },
	{ { 'v' }, "v", ON(AT_EDGING), "bed",
	        "All values of what stands along edges of that kind: its section, top, base strip, "
	        "haunch, mix, corner pieces, price.",
	        act_kerb, drawn, NULL },
	{ { 't' }, "t", ON(AT_EDGING), "unit length",
	        "Type the length of that unit; 0 when nothing is bought by the piece.",
	        act_unit_typed, NULL, NULL },
	{ { 'o' }, "o", ON(AT_EDGING), NULL,
	        "Type the depth of that unit across the edge: corners where two such edges meet "
	        "are then mitred; 0: butted.",
	        act_unit_corners, NULL, NULL },
	{ { 'l' }, "l", ON(AT_EDGING), NULL,
	        "Type the shortest piece of that unit that may be cut; empty for a third of it.",
	        act_unit_least, NULL, NULL },
	/* Planters */
	{ { 'b' }, "b", ON(AT_PLANTERS), "planters",
	        "Choose a planter, or draw one: a box, a run leg by leg, a wall along the chosen "
	        "edge.",
	        act_planters, NULL, NULL },
	{ { 'i' }, "i", ON(AT_PLANTERS), "its values",
	        "All values of the chosen planter: run, block, courses, ties, profile, footing, "
	        "soil.",
	        act_planter_values, NULL, NULL },
	{ { 'c' }, "c", ON(AT_PLANTERS), "block", "Choose its block from the catalogue.", act_block,
	        NULL, NULL },
	{ { 'e' }, "e", ON(AT_PLANTERS), "elevation",
	        "See its wall from the side, leg by leg: courses, joints, cut blocks, ties, "
	        "drainage "
	        "holes, the profile's fixings.",
	        act_elevation, NULL, NULL },
	{ { 'x' }, "x", ON(AT_PLANTERS), "corners", "Its corners, as a table.", act_planter_points,
	        NULL, NULL },
	{ { 'o' }, "o", ON(AT_PLANTERS), NULL,
	        "In the sketch, where a block is large enough to be seen: show odd or even "
	        "courses.",
	        act_courses, NULL, NULL },
	{ { 'd', KEY_OF_DELETE }, "d", ON(AT_PLANTERS), "delete", "Delete the chosen planter.",
	        act_planter_delete, NULL, NULL },
	/* Steps */
	{ { 'b' }, "b", ON(AT_STEPS), "flights",
	        "Choose a flight, or add one: from the chosen edge, or from the cursor.",
	        act_flights, NULL, NULL },
	{ { 'i' }, "i", ON(AT_STEPS), "its values",
	        "All values of the chosen flight: levels, risers, going, units or slabs, landing.",
	        act_flight_values, NULL, NULL },
	{ { 'c' }, "c", ON(AT_STEPS), "unit", "Choose its unit from the catalogue.", act_step_unit,
	        NULL, NULL },
	{ { 'd', KEY_OF_DELETE }, "d", ON(AT_STEPS), "delete", "Delete the chosen flight.",
	        act_flight_delete, NULL, NULL },
	{ { 'e' }, "e", ON(AT_STEPS), "side",
	        "See it from the side: risers, goings, units, what sinks.", act_elevation, NULL,
	        NULL },
	/* Elevation */
	{ { KEY_OF_ARROW_LEFT, KEY_OF_ARROW_RIGHT, KEY_OF_ARROW_UP, KEY_OF_ARROW_DOWN,
	          KEY_OF_PAGE_UP, KEY_OF_PAGE_DOWN, KEY_OF_WHEEL_UP, KEY_OF_WHEEL_DOWN },
	        "arrows", ON(AT_ELEVATION), "along it",
	        "Left and right: along the wall or flight, and from its end to the next leg or "
	        "flight. Up and down, where it is higher than the window.",
	        act_elevation_move, NULL, NULL },
	{ { 'n', 'p' }, "n p", ON(AT_ELEVATION), "next leg or flight",
	        "Go to the next leg of the wall, or the next flight; p: the one before.",
	        act_elevation_next, NULL, NULL },
	{ { 'l' }, "l", ON(AT_ELEVATION), NULL, "Show the other leaf of a wall of two.",
	        act_elevation_leaf, NULL, NULL },
	{ { KEY_OF_ESCAPE, 'e' }, "Esc", ON(AT_ELEVATION), "back", "Go back to the stage.",
	        act_elevation_leave, NULL, NULL },
	/* Ground */
	{ { 'b' }, "b", ON(AT_GROUND), "levelling book",
	        "The levelling book: known levels, and the readings line by line.", act_book, NULL,
	        NULL },
	{ { 'v' }, "v", ON(AT_GROUND), "level here",
	        "Type the level of the ground at the cursor, as it was found.", act_spot_here, NULL,
	        NULL },
	{ { 'l' }, "l", ON(AT_GROUND), "all levels", "The levels of the ground, as a table.",
	        act_spots, NULL, NULL },
	{ { 'i' }, "i", ON(AT_GROUND), "digging",
	        "What is dug beyond the outline, topsoil, bulking and compaction.", act_earth, NULL,
	        NULL },
	{ { 'g' }, "g", ON(AT_GROUND), "layers",
	        "Set bedding and sub-base, and the instrument: benchmark level and backsight.",
	        act_ground, NULL, NULL },
	/* Set-out */
	{ { 'b' }, "b", ON(AT_SETOUT), "baseline",
	        "Choose the baseline: the house wall, an edge, or from a corner to the cursor.",
	        act_baseline, drawn, NULL },
	{ { 'l' }, "l", ON(AT_SETOUT), "pegs", "Pegs of your own, as a table.", act_pegs, drawn,
	        NULL },
	/* Check */
	{ { 'b' }, "b", ON(AT_CHECK), "measure",
	        "Type what was measured after laying, as a table: levels and places.", act_measured,
	        drawn, NULL },
	/* Order */
	{ { 'c' }, "c", ON(AT_ORDER), "price", "Set the price of one slab.", act_price, one_slab,
	        NULL },
	{ { 'm' }, "m", ON(AT_ORDER), "prices and time",
	        "Materials and how they are bought, output rates, plant hire, anything else, wage, "
	        "margin, tax and dates: from these come price and day plan.",
	        act_costs, NULL, NULL },
	{ { 'b' }, "b", ON(AT_ORDER), "breakage",
	        "Set the breakage allowance, in percent of the slabs needed (one slab at least).",
	        act_breakage, NULL, NULL },
	{ { 'g' }, "g", ON(AT_ORDER), "pack",
	        "Set how many slabs come in a pack that is not split; 1 where they are sold "
	        "singly.",
	        act_pack, by_choice_of_pack, NULL },
	{ { 'i' }, "i", ON(AT_LAYING) | ON(AT_ORDER), "more",
	        "The rest of the slab's values: thickness, saw kerf, fill and sliver width, pack, "
	        "price, density, grain; of a zone also its name, its level, and whether it has "
	        "slabs.",
	        act_settings, usual, NULL },
	/* Start lines */
	{ { KEY_OF_ARROW_UP, KEY_OF_ARROW_DOWN, KEY_OF_PAGE_UP, KEY_OF_PAGE_DOWN, KEY_OF_HOME,
	          KEY_OF_END },
	        "up down", ON(AT_STARTS), "look",
	        "Move through the rows. The sketch and the pane show the start that is marked; "
	        "nothing is stored.",
	        act_starts_row, NULL, NULL },
	{ { KEY_OF_ENTER }, "Enter", ON(AT_STARTS), "take it",
	        "Take the start that is marked: one change, which u undoes.", act_starts_take, NULL,
	        NULL },
	{ { 't' }, "t", ON(AT_STARTS), "turned too",
	        "Rank the starts with the bond turned by 90 degrees as well; or no longer.",
	        act_starts_turned, NULL, NULL },
	{ { KEY_OF_ESCAPE }, "Esc", ON(AT_STARTS), "leave", "Leave the start where it was.",
	        act_starts_leave, NULL, NULL },
	/* Variants, jobs, clients, choices */
	{ { KEY_OF_ARROW_UP, KEY_OF_ARROW_DOWN, KEY_OF_PAGE_UP, KEY_OF_PAGE_DOWN, KEY_OF_HOME,
	          KEY_OF_END, KEY_OF_WHEEL_UP, KEY_OF_WHEEL_DOWN },
	        "up down", LISTS | ON(AT_CHOICE) | ON(AT_COMPARE) | ON(AT_HELP), "move",
	        "Move through the rows; Page Up and Page Down go faster.", act_row, has_lines,
	        NULL },
	{ { KEY_OF_ENTER }, "Enter", LISTS, "open", "Open the row that is marked.", act_row_enter,
	        has_rows, NULL },
	{ { KEY_OF_ENTER }, "Enter", ON(AT_CHOICE), "take it", "Take the row that is marked.",
	        act_row_enter, has_rows, NULL },
	{ { 'w', 'k', 'h', 'p', 's', 'e', 'o' }, "letter", ON(AT_CHOICE), "take its row",
	        "Take the row that begins with this letter, where rows have one.", act_row_letter,
	        has_letters, NULL },
	{ { 'a' }, "a", LISTS, "add", "Add a client, a job or an empty variant.", act_add, NULL,
	        NULL },
	{ { 'c' }, "c", ON(AT_VARIANTS) | ON(AT_JOBS), "copy",
	        "Copy the marked variant, or the marked job with all its variants, under a new "
	        "name.",
	        act_copy, has_rows, NULL },
	{ { '=' }, "=", ON(AT_VARIANTS), "compare",
	        "Set the variants side by side, those whose rows are shown.", act_compare, NULL,
	        NULL },
	{ { 'r' }, "r", LISTS, "rename", "Rename the marked row.", act_rename, has_rows, NULL },
	{ { 'f' }, "f", LISTS | ON(AT_CHOICE), "find",
	        "Type, and only rows that have it in name or notes are shown. Enter keeps them, "
	        "for the other keys; Esc shows all rows again.",
	        act_find, has_rows, NULL },
	{ { 'o' }, "o", ON(AT_VARIANTS), "jobs", "Go to the list of jobs.", act_jobs, NULL, NULL },
	{ { 'n' }, "n", LISTS, "notes", "Write notes to the marked row.", act_notes, has_rows,
	        NULL },
	{ { 'd', KEY_OF_DELETE }, "d", LISTS, "delete",
	        "Delete the marked row with all below it, after asking.", act_delete, has_rows,
	        NULL },
	{ { 'b' }, "b", LISTS, NULL, "Bring back what was deleted here.", act_bring_back, NULL,
	        NULL },
	{ { 'z' }, "z", LISTS, NULL,
	        "Archive the marked row, so that it is out of the way; or take it out of the "
	        "archive.",
	        act_archive, NULL, NULL },
	{ { 's' }, "s", LISTS, NULL, "Show archived rows too, or hide them.", act_archived, NULL,
	        NULL },
	{ { 'm' }, "m", ON(AT_VARIANTS), NULL, "Copy the marked variant into another job.",
	        act_copy_to, NULL, NULL },
	{ { 'i' }, "i", ON(AT_CLIENTS), "import",
	        "Take in a document from another laptop: what differs from what is here is shown, "
	        "and nothing is overwritten.",
	        act_import, NULL, NULL },
	{ { 'x' }, "x", LISTS, "export", "Write the marked row to a document for another laptop.",
	        act_export, has_rows, NULL },
	{ { KEY_OF_ARROW_LEFT, KEY_OF_ARROW_RIGHT }, "left right", ON(AT_COMPARE), "more",
	        "Move through the columns where they do not all fit.", act_row, NULL, NULL },
	{ { KEY_OF_ESCAPE }, "Esc",
	        ON(AT_VARIANTS) | ON(AT_CLIENTS) | ON(AT_JOBS) | ON(AT_CHOICE) | ON(AT_COMPARE) |
	                ON(AT_HELP),
	        "back", "Go back to where you came from.", act_back, can_go_back, NULL },
	/* Tables */
	{ { KEY_OF_ARROW_LEFT, KEY_OF_ARROW_RIGHT, KEY_OF_ARROW_UP, KEY_OF_ARROW_DOWN,
	          KEY_OF_PAGE_UP, KEY_OF_PAGE_DOWN, KEY_OF_HOME, KEY_OF_END, KEY_OF_WHEEL_UP,
	          KEY_OF_WHEEL_DOWN },
	        "arrows", ON(AT_TABLE), "move",
	        "Move through rows and columns; Page Up and Page Down go faster, Home and End to "
	        "the first row and behind the last.",
	        act_cell_move, NULL, NULL },
	{ { KEY_OF_ENTER }, "Enter", ON(AT_TABLE), "type",
	        "Type the marked cell. In a new row taking it goes on to what comes next, cell by "
	        "cell and row by row, until Esc.",
	        act_cell_enter, NULL, NULL },
	{ DIGITS, "0-9", ON(AT_TABLE), NULL, "Begin typing the marked cell.", act_cell_type, NULL,
	        NULL },
	{ { '-' }, "-", ON(AT_TABLE), NULL, "Likewise, with a minus.", act_cell_type, NULL, NULL },
	{ { 'a' }, "a", ON(AT_TABLE), "add a row", "Begin a new row, behind the last.",
	        act_table_add, NULL, NULL },
	{ { 'd', KEY_OF_DELETE }, "d", ON(AT_TABLE), "delete the row", "Delete the marked row.",
	        act_table_drop, table_has_rows, NULL },
	{ { KEY_OF_ESCAPE }, "Esc", ON(AT_TABLE), "back", "Go back to the stage.", act_table_leave,
	        NULL, NULL },
	/* everywhere in the sketch */
	{ ARROWS, "arrows", SKETCH, "move it",
	        "Move the cursor by a cell. In a carry or a start-line move: move that.", act_move,
	        letting_go, NULL },
	{ FAST, "Shift-arrows", SKETCH, NULL, "Move five cells at once.", act_move, NULL, NULL },
	{ { '+', '-', KEY_OF_WHEEL_UP, KEY_OF_WHEEL_DOWN }, "+ -", SKETCH | ON(AT_STARTS), "zoom",
	        "Make the sketch larger or smaller; the cell is also the cursor's step.", act_zoom,
	        usual, NULL },
	{ { 'f' }, "f", SKETCH | ON(AT_STARTS), "fit", "Show the whole plan.", act_fit, drawn,
	        NULL },
	{ { 'z' }, "z", SKETCH, NULL, "Type the size of a cell.", act_cell, NULL, NULL },
	{ { KEY_OF_PAGE_UP, KEY_OF_PAGE_DOWN }, "Page Up/Down", SKETCH, NULL,
	        "Read on in the pane on the right when it holds more than fits.", act_page, NULL,
	        NULL },
	{ { KEY_OF_PRESS }, "mouse", SKETCH | LISTS | ON(AT_CHOICE), NULL,
	        "Click: bring the cursor there.", act_press, NULL, NULL },
	{ { KEY_OF_ESCAPE }, "Esc", SKETCH, "leave it", "Let go of what is carried or moved.",
	        act_let_go, carrying, NULL },
	{ { 'u' }, "u", ON_STAGES | ON(AT_TABLE) | ON(AT_CHOICE), "undo",
	        "Undo the last change of this variant, and say what it was; also after a restart.",
	        app_undo, not_chosen_from, NULL },
	{ { 'U' }, "U", ON_STAGES | ON(AT_TABLE) | ON(AT_CHOICE), NULL, "Redo what was undone.",
	        app_redo, NULL, NULL },
	{ { '.' }, ".", ON_STAGES, NULL, "Go to a stage: choose it from a list.", act_go_to, NULL,
	        NULL },
	{ { KEY_OF_TAB, KEY_OF_BACK_TAB }, "Tab", ON_STAGES, "on",
	        "Go to the next stage; Shift-Tab to the one before.", act_stage, NULL, NULL },
	{ { '?' }, "?", (ON(PLACES) - 1u) & ~ON(AT_HELP), "help",
	        "Show this help, for the screen you are on.", act_help, NULL, NULL },
	{ { 'q' }, "q", ON_STAGES | LISTS, "quit",
	        "Leave the planner. Every change is already saved.", act_quit, NULL, NULL },
};
const size_t action_count = sizeof actions / sizeof actions[0];

const struct action *action_find(enum place place, int key)
{
	for (size_t i = 0; i < action_count; i++) {
		if (!(actions[i].where & ON(place)))
			continue;
		for (int k = 0; k < ACTION_KEYS && actions[i].keys[k]; k++)
			if (actions[i].keys[k] == key)
				return &actions[i];
	}
	return NULL;
}
