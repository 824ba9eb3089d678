/* startlines.c - the ranking of start lines in three forms. */
#include "csv_row.h"
#include "slabwright/json.h"

#include <inttypes.h>

char *start_words(char *buf, size_t size, const struct start_list *list)
{
	char a[40], b[40];
	int n = 0;

	if (!list->done && !list->exact)
		n = snprintf(buf, size, "Still searching, %" PRId64 " starts tried. ", list->tried);
	if (n < 0 || (size_t)n >= size)
		return buf;
	if (list->exact)
		snprintf(buf, size, "Exact: no start comes before the first%s.",
		        list->done ? "" : "; still looking for others");
	else if (list->least_slabs && list->least_slabs == list->rows[0].slabs)
		snprintf(buf + n, size - (size_t)n,
		        "Slivers and slabs to order are exact: no start has fewer.");
	else if (list->least_slabs)
		snprintf(buf + n, size - (size_t)n,
		        "Slivers are exact. With as few, no start orders fewer than %" PRId64
		        " slabs.",
		        list->least_slabs);
	else if (list->fine_um)
		snprintf(buf + n, size - (size_t)n,
		        "Sampled every %s mm, and round the best every %s mm.",
		        mm_print(a, sizeof a, list->grid_um), mm_print(b, sizeof b, list->fine_um));
	else if (list->grid_um)
		snprintf(buf + n, size - (size_t)n, "Sampled every %s mm.",
		        mm_print(a, sizeof a, list->grid_um));
	return buf;
}

/* --- text --- */

static void text_start(FILE *to, const struct start_row *r)
{
	char x[40], y[40], least[60] = "", balance[40];

	if (r->smallest_um != START_NO_PIECE) {
		char mm[40];

		snprintf(least, sizeof least, ", smallest piece %s mm",
		        mm_print(mm, sizeof mm, r->smallest_um));
	}
	fprintf(to,
	        "start x %s mm, y %s mm%s: slivers %" PRId64 ", slabs to order %" PRId64
	        ", cut %" PRId64 "%s, balance %s mm\n",
	        mm_print(x, sizeof x, r->x_um), mm_print(y, sizeof y, r->y_um),
	        r->turn_udeg ? ", turned by 90 degrees" : "", r->slivers, r->slabs, r->cuts, least,
	        mm_print(balance, sizeof balance, r->balance_um));
}

static void text_startlines(FILE *to, const struct takeoff *t, const struct start_list *list)
{
	char words[200];

	fputs("Start lines of variant \"", to);
	sheet_put_text(to, t->plan.name);
	fprintf(to,
	        "\"\n\n%s\n%sRanked by slivers, slabs to order, cuts, smallest piece, "
	        "balance.\n\n",
	        start_words(words, sizeof words, list),
	        list->done ? "" : "The work for a ranking is used up.\n");
	for (size_t i = 0; i < list->count; i++) {
		fprintf(to, "  %zu%s: ", i + 1, list->rows[i].present ? ", the present one" : "");
		text_start(to, &list->rows[i]);
	}
	fputs("\nThe present start\n  ", to);
	text_start(to, &list->now);
}

/* --- CSV --- */

static void csv_row(FILE *to, size_t rank, const struct start_row *start)
{
	struct row r = { .to = to };

	if (rank)
		row_int(&r, (int64_t)rank);
	else
		row_empty(&r);
	row_mm(&r, (double)start->x_um);
	row_mm(&r, (double)start->y_um);
	row_int(&r, start->turn_udeg ? 90 : 0);
	row_int(&r, start->slivers);
	row_int(&r, start->slabs);
	row_int(&r, start->cuts);
	if (start->smallest_um != START_NO_PIECE)
		row_mm(&r, (double)start->smallest_um);
	else
		row_empty(&r);
	row_mm(&r, (double)start->balance_um);
	row_text(&r, start->present ? "yes" : "no");
	row_end(&r);
}

static void csv_startlines(FILE *to, const struct start_list *list)
{
	struct row r = { .to = to };

	ROW_HEADER(&r, "rank", "x_mm", "y_mm", "turn", "slivers", "slabs", "cut", "smallest_mm",
	        "balance_mm", "present");
	for (size_t i = 0; i < list->count; i++)
		csv_row(to, i + 1, &list->rows[i]);
	csv_row(to, 0, &list->now);
}

/* --- JSON --- */

static void mm_or_null(struct json *j, const char *key, int64_t um, bool known)
{
	if (known)
		json_mm(j, key, um);
	else
		json_null(j, key);
}

static void json_row(struct json *j, const char *key, size_t rank, const struct start_row *r)
{
	json_object_tight(j, key);
	if (rank)
		json_int(j, "rank", (int64_t)rank);
	json_object_tight(j, "start");
	json_mm(j, "x", r->x_um);
	json_mm(j, "y", r->y_um);
	json_end(j);
	json_degrees(j, "turn", r->turn_udeg);
	json_int(j, "slivers", r->slivers);
	json_int(j, "slabs", r->slabs);
	json_int(j, "cut", r->cuts);
	mm_or_null(j, "smallest_mm", r->smallest_um, r->smallest_um != START_NO_PIECE);
	json_mm(j, "balance", r->balance_um);
	json_bool(j, "present", r->present);
	json_end(j);
}

static void json_startlines(struct json *j, const struct takeoff *t, const struct start_list *list)
{
	json_object(j, NULL);
	json_text(j, "variant", t->plan.name);
	json_bool(j, "exact", list->exact);
	json_bool(j, "finished", list->done);
	json_int(j, "tried", list->tried);
	if (list->least_slabs)
		json_int(j, "slabs_at_least", list->least_slabs);
	else
		json_null(j, "slabs_at_least");
	mm_or_null(j, "grid_mm", list->grid_um, list->grid_um > 0);
	mm_or_null(j, "fine_mm", list->fine_um, list->fine_um > 0);
	json_array(j, "startlines");
	for (size_t i = 0; i < list->count; i++)
		json_row(j, NULL, i + 1, &list->rows[i]);
	json_end(j);
	json_row(j, "present", 0, &list->now);
	json_end(j);
}

enum status sheet_startlines(FILE *to, const struct takeoff *t, const struct start_list *list,
        enum sheet_form form, struct error *err)
{
	struct json j = { 0 };
	struct folded f;

	switch (form) {
	case SHEET_TEXT:
		if (!folded_open(&f))
			return error_memory(err);
		text_startlines(f.memory, t, list);
		return folded_close(&f, to, err);
	case SHEET_CSV:
		csv_startlines(to, list);
		return STATUS_OK;
	case SHEET_JSON:
		break;
	}
	json_startlines(&j, t, list);
	return json_write_out(&j, to, err);
}
