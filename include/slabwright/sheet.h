/* sheet.h - a take-off as something to read: text for people, CSV (RFC 4180) and JSON for programs.
 */
#ifndef SLABWRIGHT_SHEET_H
#define SLABWRIGHT_SHEET_H

#include "slabwright/takeoff.h"

#include <stdio.h>

enum sheet_form { SHEET_TEXT, SHEET_CSV, SHEET_JSON };

/* Each writes to `to`; a failed write shows in ferror(to). STATUS_PLAN with the take-off's fault
 * when it is not ready. */
enum status sheet_takeoff(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
enum status sheet_cuts(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
enum status sheet_water(FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);
enum status sheet_levels(
        FILE *to, const struct takeoff *t, enum sheet_form form, struct error *err);

/* Money in minor units as whole.cents, without a currency sign. Returns buf. */
char *money_print(char *buf, size_t size, int64_t minor);

#endif
