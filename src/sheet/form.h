/* form.h - the three forms of the sheets, for sheet.c to choose from. */
#ifndef SHEET_FORM_H
#define SHEET_FORM_H

#include "slabwright/sheet.h"

/* Each writes one ready take-off. Only those of JSON can fail, for memory. */
void text_takeoff(FILE *to, const struct takeoff *t);
void text_cuts(FILE *to, const struct takeoff *t);
void text_water(FILE *to, const struct takeoff *t);
void text_levels(FILE *to, const struct takeoff *t);

void csv_takeoff(FILE *to, const struct takeoff *t);
void csv_cuts(FILE *to, const struct takeoff *t);
void csv_water(FILE *to, const struct takeoff *t);
void csv_levels(FILE *to, const struct takeoff *t);

/* A text is written to the stream that folded_open gives (NULL: no memory); folded_close brings it
 * to `to`, where long lines go on in the next one, farther to the right. */
struct folded {
	FILE *memory;
	char *text;
	size_t size;
};
FILE *folded_open(struct folded *f);
enum status folded_close(struct folded *f, FILE *to, struct error *err);

/* A sheet of anything else than a take-off in the form asked for; each function is given `what`. */
struct json;
struct sheet_forms {
	void (*text)(FILE *to, const void *what);
	void (*csv)(FILE *to, const void *what);
	void (*json)(struct json *to, const void *what);
};
enum status sheet_write(FILE *to, const struct sheet_forms *forms, const void *what,
        enum sheet_form form, struct error *err);

/* Writes out what the writer holds, and frees it. */
enum status json_write_out(struct json *j, FILE *to, struct error *err);

void json_takeoff(struct json *to, const struct takeoff *t);
void json_cuts(struct json *to, const struct takeoff *t);
void json_water(struct json *to, const struct takeoff *t);
void json_levels(struct json *to, const struct takeoff *t);

void json_warnings(struct json *to, const struct surface_result *s);

void text_courses(FILE *to, const struct takeoff *t);
void csv_courses(FILE *to, const struct takeoff *t);
void json_courses(struct json *to, const struct takeoff *t);

/* The dig, and what the take-off says of it. */
struct row;
void text_dig(FILE *to, const struct takeoff *t);
void csv_dig(FILE *to, const struct takeoff *t);
void json_dig(struct json *to, const struct takeoff *t);
void text_dig_lines(FILE *to, const struct takeoff *t);
void csv_dig_rows(struct row *r, const struct takeoff *t);
void json_dig_object(struct json *j, const struct takeoff *t);

/* How the edging stands, and flights of steps; put_... are their parts of a take-off. */
void text_edging(FILE *to, const struct takeoff *t);
void csv_edging(FILE *to, const struct takeoff *t);
void json_edging(struct json *to, const struct takeoff *t);
void text_put_kerbs(FILE *to, const struct takeoff *t);
void json_put_kerbs(struct json *to, const struct takeoff *t);

void text_steps(FILE *to, const struct takeoff *t);
void csv_steps(FILE *to, const struct takeoff *t);
void json_steps(struct json *to, const struct takeoff *t);
void text_put_flights(FILE *to, const struct takeoff *t);
void text_put_planters(FILE *to, const struct takeoff *t); /* planters_short.c */
void json_put_flights(struct json *to, const struct takeoff *t);

/* Numbers without the noise of the arithmetic: to nine decimals of a metre, square metre or
 * kilogram; um as mm, to the nanometre. Money that is not known prints null. */
double tidy(double v);
void real_mm(struct json *j, const char *key, double um);
void point_mm(struct json *j, const char *key, double x, double y);
void minor_or_null(struct json *j, const char *key, int64_t minor);
void json_handling(struct json *j, const char *key, const struct handling *h);

/* What the texts share: the first lines, "  label: value", the proof of a cut plan, a caution, and
 * the corners to mark on a piece that is no rectangle, from its lower left: "; corners in mm: ...".
 */
void text_title(FILE *to, const struct takeoff *t, const char *what);
void text_heading(FILE *to, const struct plan *plan, const char *what);
void text_line(FILE *to, const char *label, const char *format, ...)
        __attribute__((format(printf, 3, 4)));
void text_line_mm(FILE *to, const char *label, double um);
void text_proof(FILE *to, const struct cutplan *c);
void text_fall(FILE *to, const struct takeoff *t);
void text_warnings(FILE *to, const struct surface_result *s);
void text_caution(void *to, const char *text);
void text_corners(FILE *to, const struct piece *p);
long whole_mm(double um);

/* In JSON, um as mm, kept to the nanometre: finer is noise of the arithmetic. */
void real_mm(struct json *j, const char *key, double um);
void point_mm(struct json *j, const char *key, double x, double y);

/* The order of the saw's cuts of a source of the cut plan: a line for each cut, "saw 1: ..." with
 * `before` in front; a cell; a member "saw". */
struct row;
void text_saw(FILE *to, const struct takeoff *t, size_t source, const char *before);
void csv_saw(struct row *r, const struct takeoff *t, size_t source);
void json_saw(struct json *j, const struct takeoff *t, size_t source);
extern const char SAW_WORDS[];

/* The words all forms use. */
extern const char NO_RAIN[];
const char *piece_kind_name(enum piece_kind kind);

/* The two nodes of an edge numbered over the whole plan from 0. */
void edge_nodes(const struct plan *plan, size_t edge, const struct plan_node **from,
        const struct plan_node **to);

#endif
