/* saw_steps.h - a saw order carried out cut by cut with GEOS, as sawing.h states it. */
#ifndef TESTS_ORACLE_SAW_STEPS_H
#define TESTS_ORACLE_SAW_STEPS_H

#include "slabwright/sawing.h"

#include <geos_c.h>

/* Saws the slab as the order says; the pieces lie on it as the polygons (mm). Fails the test unless
 * each cut begins and ends on the edge of the part in hand, or goes all round in it, takes nothing
 * from a piece, and parts the pieces it says; and in the end each piece is there as it should be,
 * and once. */
void saw_steps_check(GEOSContextHandle_t g, const struct saw_order *order,
        const struct cut_stock *stock, const GEOSGeometry *const *pieces, int count);

/* How many cuts of each kind were carried out since the program began. */
extern long saw_steps_done[4], saw_steps_ground;

#endif
