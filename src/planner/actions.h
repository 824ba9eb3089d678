/* actions.h - every key of the planner, in one table.
 *
 * The foot line, the help screen and the test that no key is used twice read it. */
#ifndef SLABWRIGHT_PLANNER_ACTIONS_H
#define SLABWRIGHT_PLANNER_ACTIONS_H

#include "app.h"

#define ON(place) (1u << (place))
#define ON_STAGES (ON(STAGES) - 1u)
#define ACTION_KEYS 12

struct action {
	int keys[ACTION_KEYS]; /* 0 ends them */
	const char *key_words; /* as it is shown: "Enter", "arrows" */
	unsigned where; /* places it works at */
	const char *foot; /* words for the foot line; NULL: only in the help */
	const char *help;
	void (*run)(struct app *app, int key);
	bool (*when)(const struct app *app); /* when the foot line shows it; NULL: always */
	const char *busy; /* words for the foot line while a corner is carried */
};

extern const struct action actions[];
extern const size_t action_count;

/* The action for a key at a place, or NULL. */
const struct action *action_find(enum place place, int key);

/* Words about a place, at the head of its help. */
const char *place_name(enum place place);
const char *place_help(enum place place);
/* What a stage is for, in a few words. */
const char *place_gist(enum place place);

/* What the table's rows run, by file. */
void act_move(struct app *app, int key); /* act_move.c */
void act_page(struct app *app, int key);
void act_stage(struct app *app, int key);
void act_go_to(struct app *app, int key);
void act_zoom(struct app *app, int key);
void act_fit(struct app *app, int key);
void act_cell(struct app *app, int key);
void act_next_corner(struct app *app, int key);
void act_next_ring(struct app *app, int key);
void act_help(struct app *app, int key);
void act_quit(struct app *app, int key);
void act_let_go(struct app *app, int key);
void act_press(struct app *app, int key);
void choose_corner(struct app *app, size_t ring, size_t at);

void act_enter(struct app *app, int key); /* act_outline.c */
void act_length(struct app *app, int key);
/* Whether a corner may lie there; where not, the reason is shown. */
bool within_site(struct app *app, int64_t x, int64_t y);
void act_close(struct app *app, int key);
void act_rectangle(struct app *app, int key);
bool ring_is_begun(const struct app *app);
void act_opening(struct app *app, int key);

/* Whether a corner lies in the cursor's cell. */
bool under_cursor(const struct app *app, const struct plan_node *n); /* act_choose.c */
/* How far a point lies from a straight edge, um. */
double edge_distance(struct point p, struct point a, struct point b);
/* Chooses the corner or edge under the cursor, and says so; false for none. */
bool choose_here(struct app *app);

void act_carry(struct app *app, int key); /* act_corner.c */
void act_position(struct app *app, int key);
void act_split(struct app *app, int key);
void act_delete_corner(struct app *app, int key);
void act_delete_ring(struct app *app, int key);
void act_true_length(struct app *app, int key);
void act_arc(struct app *app, int key);
void act_kind(struct app *app, int key);
void put_down(struct app *app);

/* The plane chosen at Falls, from 0. */
size_t plane_here(const struct app *app); /* act_falls.c */
void act_level(struct app *app, int key);
void act_direction(struct app *app, int key);
void act_fall(struct app *app, int key);
void act_fixed(struct app *app, int key); /* act_meet.c */
void act_fixed_gone(struct app *app, int key);
void act_rules(struct app *app, int key);

/* Whether the bond is laid of one slab; those of several sizes bring their own. */
bool of_one_slab(const struct app *app); /* act_laying.c */
/* Opens a choice of the catalogue's slabs, with that of this name marked; and the slab of a row's
 * id, its name in mem. False, with the reason shown, where it cannot be read. */
void slabs_choice(struct app *app, const char *title, const char *now,
        void (*chosen)(struct app *, const struct list_row *));
bool slab_of_catalogue(struct app *app, struct arena *mem, int64_t id, struct plan_slab *out);
void act_slab(struct app *app, int key);
void act_size(struct app *app, int key);
void act_joint(struct app *app, int key);
void act_bond(struct app *app, int key);
void act_offset(struct app *app, int key);
void act_rotation(struct app *app, int key);
void act_nudge(struct app *app, int key);
void act_start(struct app *app, int key);
void act_start_here(struct app *app, int key);
void nudge_by(struct app *app, int key);
void nudge_step(struct app *app, int key);

void act_planes(struct app *app, int key); /* act_planes.c */
void act_known_levels(struct app *app, int key);
void act_contours(struct app *app, int key);
void act_areas(struct app *app, int key);

void act_drains(struct app *app, int key); /* act_drains.c */
void act_rain(struct app *app, int key); /* act_rain.c */

/* The planter chosen, from 0; and it changed, in the plan. */
size_t planter_here(const struct app *app); /* act_planter.c */
bool planter_put(struct app *app, const struct plan_planter *planter, const char *what);
void act_planters(struct app *app, int key);
void act_planter_points(struct app *app, int key);
void act_courses(struct app *app, int key);
void act_planter_delete(struct app *app, int key);
void act_planter_values(struct app *app, int key); /* act_planter_values.c */
void act_block(struct app *app, int key);

void act_flights(struct app *app, int key); /* act_steps.c */
void act_flight_values(struct app *app, int key);
void act_flight_delete(struct app *app, int key);

void act_elevation(struct app *app, int key); /* act_elevation.c */
void act_elevation_move(struct app *app, int key);
void act_elevation_next(struct app *app, int key);
void act_elevation_leaf(struct app *app, int key);
void act_elevation_leave(struct app *app, int key);
void act_step_unit(struct app *app, int key);
size_t flight_here(const struct app *app);

void act_book(struct app *app, int key); /* act_book.c */
void act_spots(struct app *app, int key);
void act_spot_here(struct app *app, int key);
void act_earth(struct app *app, int key);

void act_pegs(struct app *app, int key); /* act_pegs.c */
void act_baseline(struct app *app, int key);

void act_measured(struct app *app, int key); /* act_built.c */

void act_ground(struct app *app, int key); /* act_ground.c */
void act_dpc(struct app *app, int key);

void act_costs(struct app *app, int key); /* act_costs.c */

void act_settings(struct app *app, int key); /* act_settings.c */
void act_breakage(struct app *app, int key);
void act_price(struct app *app, int key);
void act_pack(struct app *app, int key);

/* The kind of the chosen edge; false, with the reason shown, where there is none. */
bool chosen_kind(struct app *app, enum edge_kind *kind); /* act_edging.c */
void act_kerb(struct app *app, int key); /* act_kerb.c */
void act_unit(struct app *app, int key);
void act_unit_typed(struct app *app, int key);
void act_unit_corners(struct app *app, int key);
void act_unit_least(struct app *app, int key);

void act_border(struct app *app, int key); /* act_border.c */
bool border_edge_chosen(struct app *app); /* false, with the reason shown, where no edge is */
/* Along how many edges of outline and openings a border of the plan runs. */
size_t border_edges(const struct plan *plan, int64_t number);
void act_border_values(struct app *app, int key); /* act_border_values.c */
/* Where the joint got wider than the widest on curves, that is as wide. */
void border_keep_widest(struct plan_border *border);

void act_cell_move(struct app *app, int key); /* table.c */
void act_cell_enter(struct app *app, int key);
void act_cell_type(struct app *app, int key);
void act_table_add(struct app *app, int key);
void act_table_drop(struct app *app, int key);
void act_table_leave(struct app *app, int key);

void act_row(struct app *app, int key); /* act_lists.c */
void act_row_enter(struct app *app, int key);
void act_row_letter(struct app *app, int key);
int row_letter(const struct list_row *row); /* that the row begins with, lower case; 0: none */
void act_add(struct app *app, int key);
void act_rename(struct app *app, int key);
void act_jobs(struct app *app, int key);
void act_back(struct app *app, int key);
void act_find(struct app *app, int key);
/* The marked row, NULL for none; and whether a text can be a name: where not, that is shown. */
const struct list_row *row_marked(struct app *app);
bool row_named(struct app *app, const char *text);

void act_copy(struct app *app, int key); /* act_entries.c */
void act_copy_to(struct app *app, int key);
void act_notes(struct app *app, int key);
void act_archive(struct app *app, int key);
void act_archived(struct app *app, int key);
void act_delete(struct app *app, int key);
void act_bring_back(struct app *app, int key);

void act_import(struct app *app, int key); /* act_exchange.c */
void act_export(struct app *app, int key);

void act_compare(struct app *app, int key); /* act_compare.c */
void compare_scroll(struct app *app, bool right);
bool show_clients(struct app *app);
bool show_jobs(struct app *app);
bool show_variants(struct app *app);

#endif
