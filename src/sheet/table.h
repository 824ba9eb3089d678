/* table.h - tables and paragraphs that go on in the next column or page. */
#ifndef SHEET_TABLE_H
#define SHEET_TABLE_H

#include "page.h"

#define FLOW_COLUMNS 8

/* Where things follow each other downward. The first page is begun by whoever sets up the columns
 * on it; those after it are begun here, headed "continued", in columns as wide as the first. */
struct flow {
	struct drawing *d;
	struct page_head head;
	struct box columns[FLOW_COLUMNS];
	int count, at;
	double y; /* where the next thing begins */
};

/* One column to begin with. */
struct flow flow_begin(struct drawing *d, const struct page_head *head, const struct box *column);
/* As many columns of that width as stand side by side in a box. */
struct flow flow_across(
        struct drawing *d, const struct page_head *head, const struct box *box, double width);
/* Makes sure of so much height (cut to that of a whole column); true when that began another
 * column. */
bool flow_need(struct flow *f, double height);
double flow_x(const struct flow *f);
double flow_width(const struct flow *f);
void flow_space(struct flow *f, double height);

/* A heading, kept together with `follows` mm of what comes after it. */
void flow_heading(struct flow *f, const char *words, double follows);
/* A paragraph as wide as the column. */
void flow_paragraph(struct flow *f, const char *words, double size);

#define TABLE_COLUMNS 10

struct table_column {
	const char *head;
	double width; /* mm */
	enum align align;
};

struct table {
	struct flow *flow;
	const struct table_column *columns;
	int count;
	double size; /* of its text */
	bool begun;
};

/* Its heading is written with the first row, and again in each column it goes on in. */
struct table table_begin(
        struct flow *flow, const struct table_column *columns, int count, double size);
/* One cell a column; what is too long ends in an ellipsis. */
void table_row(struct table *t, const char *const *cells);
void table_row_bold(struct table *t, const char *const *cells);
void table_end(struct table *t);
double table_width(const struct table_column *columns, int count);

#define TABLE_ROW(t, ...) table_row((t), (const char *const[]){ __VA_ARGS__ })

#endif
