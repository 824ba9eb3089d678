/* money.h - inside the sheets: words that cost sheet and quotation share. */
#ifndef SHEET_MONEY_H
#define SHEET_MONEY_H

#include "form.h"

/* "21 %", "7.5 %". Returns buf. */
const char *percent_print(char *buf, size_t size, int64_t ppm);
/* The lines that the price is without, under a heading; nothing where all are known. */
void text_unknown(FILE *to, const struct price *p);

#endif
