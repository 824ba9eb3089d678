/* order.h - what the forms of the order share. */
#ifndef SHEET_ORDER_H
#define SHEET_ORDER_H

#include "form.h"

void text_order(FILE *to, const struct takeoff *t);
void csv_order(FILE *to, const struct takeoff *t);
void json_order(struct json *to, const struct takeoff *t);

/* "sub-base", "slabs" */
const char *order_line_what(const struct material_line *line);

#endif
