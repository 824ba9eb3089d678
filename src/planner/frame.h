/* frame.h - the parts one frame is put together from. */
#ifndef SLABWRIGHT_PLANNER_FRAME_H
#define SLABWRIGHT_PLANNER_FRAME_H

#include "app.h"

void list_draw(struct app *app, const struct area *body, struct list *l);
/* The column at which the notes of a list start, which is so many columns wide. */
int list_note_column(struct app *app, const struct list *l, int cols);
void compare_draw(struct app *app, const struct area *body);
void elevation_draw(struct app *app, const struct area *body); /* act_elevation.c */
void help_draw(struct app *app, const struct area *body);
void foot_draw(struct app *app, const struct layout *lay);

#endif
