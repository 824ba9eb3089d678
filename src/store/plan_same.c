/* plan_same.c - whether two plans say the same, and in which parts they do not: by what would be
 * written of them. */
#include "plan_doc.h"

#include <string.h>

/* One member alone. */
static bool member_same(const struct field *field, const struct variant_doc *a,
        const struct variant_doc *b, const struct variant_doc *defaults, bool *same)
{
	const struct shape one = { field, 1 };
	struct json ja = { 0 }, jb = { 0 };

	json_object(&ja, NULL);
	doc_write(&ja, &one, a, defaults);
	json_end(&ja);
	json_object(&jb, NULL);
	doc_write(&jb, &one, b, defaults);
	json_end(&jb);
	*same = !ja.failed && !jb.failed && strcmp(ja.text, jb.text) == 0;
	json_free(&ja);
	json_free(&jb);
	return !ja.failed && !jb.failed;
}

const char *plan_parts_differ(struct arena *mem, const struct plan *a, const struct plan *b)
{
	struct variant_doc va, vb, defaults;
	const char *parts = "";

	variant_doc_init(&defaults);
	va = vb = defaults;
	va.plan = *a;
	vb.plan = *b;
	va.plan.name = vb.plan.name = "";
	for (size_t i = 0; parts && i < variant_shape.count; i++) {
		const struct field *field = &variant_shape.fields[i];
		bool same;

		if (!member_same(field, &va, &vb, &defaults, &same))
			return NULL;
		if (!same)
			parts = arena_print(mem, "%s%s%s", parts, *parts ? ", " : "", field->name);
	}
	return parts;
}

bool store_plans_same(const struct plan *a, const struct plan *b, bool *same)
{
	struct json ja = { 0 }, jb = { 0 };
	struct variant_doc va = { .uuid = "", .notes = "", .plan = *a },
	                   vb = { .uuid = "", .notes = "", .plan = *b };

	va.plan.name = vb.plan.name = "";
	variant_doc_write(&ja, &va);
	variant_doc_write(&jb, &vb);
	*same = !ja.failed && !jb.failed && strcmp(ja.text, jb.text) == 0;
	json_free(&ja);
	json_free(&jb);
	return !ja.failed && !jb.failed;
}
