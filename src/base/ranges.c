/* ranges.c - members of a struct held against the limits of a table. */
#include "parts.h"

#include <stdio.h>
#include <string.h>

const struct measure in_mm = { 1e3, " mm" }, in_degrees = { 1e6, " degrees" },
                     in_mm_per_m = { 1e3, " mm per m" }, in_mm_per_h = { 1e3, " mm/h" },
                     in_l_s = { 1e3, " l/s" }, in_m_s = { 1e9, " m/s" }, in_kg_m3 = { 1, " kg/m3" },
                     in_kn_m2 = { 1e3, " kN/m2" }, in_kg = { 1e3, " kg" }, in_m2 = { 1e3, " m2" },
                     in_litres = { 1e3, " litres" }, in_minutes = { 1e3, " minutes" },
                     as_thousandths = { 1e3, "" }, as_share = { 1e6, "" }, as_whole = { 1, "" },
                     as_price = { 100, "" }, as_word = { 1, "" }, as_text = { 1, "" };

static enum status check_text(
        const struct range *r, const void *at, const char *place, struct error *err)
{
	const char *text;
	char where[260];

	memcpy(&text, at, sizeof text);
	snprintf(where, sizeof where, "%s%s", place, r->name);
	return text_check(text, 0, where, err);
}

static enum status check_word(
        const struct range *r, const void *at, const char *place, struct error *err)
{
	int value;

	memcpy(&value, at, sizeof value);
	if (value >= r->least && value <= r->most)
		return STATUS_OK;
	return error_set(err, STATUS_PLAN, "%s%s: there is no such one", place, r->name);
}

static enum status check_number(
        const struct range *r, const void *at, const char *place, struct error *err)
{
	double scale = r->in->scale;
	int64_t value, least = r->least;

	memcpy(&value, at, sizeof value);
	if (value >= least && value <= r->most)
		return STATUS_OK;
	if (r->in == &as_price && value == -1)
		return STATUS_OK;
	return error_set(err, STATUS_PLAN,
	        "%s%s: %.10g%s is out of reach; give from %.10g to %.10g%s", place, r->name,
	        (double)value / scale, r->in->unit, (double)least / scale, (double)r->most / scale,
	        r->in->unit);
}

enum status check_ranges(const struct range *ranges, size_t count, const void *from,
        const char *place, struct error *err)
{
	enum status st = STATUS_OK;

	for (size_t i = 0; st == STATUS_OK && i < count; i++) {
		const struct range *r = &ranges[i];
		const void *at = (const char *)from + r->at;

		st = r->in == &as_text   ? check_text(r, at, place, err)
		     : r->in == &as_word ? check_word(r, at, place, err)
		                         : check_number(r, at, place, err);
	}
	return st;
}

enum status check_count(
        const char *name, size_t count, size_t most, const char *place, struct error *err)
{
	if (count <= most)
		return STATUS_OK;
	return error_set(
	        err, STATUS_PLAN, "%s%s: %zu of them; give at most %zu", place, name, count, most);
}
