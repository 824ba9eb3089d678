/* Variants side by side: figures by hand, what differs, and what is called best. */
#include "slabwright/compare.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static size_t figure(const char *key)
{
	for (size_t i = 0; i < COMPARE_FIGURES; i++)
		if (strcmp(compare_key(i), key) == 0)
			return i;
	ck_abort_msg("there is no figure %s", key);
	return 0;
}

static struct compare_column made(const char *name, double cut, double price)
{
	struct compare_column c = { .name = name, .ready = true };

	for (size_t i = 0; i < COMPARE_FIGURES; i++)
		c.values[i].number = NAN;
	c.values[figure("cut")].number = cut;
	snprintf(c.values[figure("cut")].text, 48, "%.0f", cut);
	c.values[figure("price_slabs_minor")].number = price;
	snprintf(c.values[figure("price_slabs_minor")].text, 48, "%.0f", price);
	return c;
}

START_TEST(what_is_least_of_all_is_called_so)
{
	struct compare_column c[4] = { made("A", 7, 100), made("B", 5, 90), made("C", 5, 95),
		made("D", 9, 90) };
	size_t cut = figure("cut"), price = figure("price_slabs_minor");

	ck_assert_ptr_null(compare_best(c, 4, cut, 0));
	ck_assert_str_eq(compare_best(c, 4, cut, 1), "fewest");
	ck_assert_str_eq(compare_best(c, 4, cut, 2), "fewest");
	ck_assert_str_eq(compare_best(c, 4, price, 1), "cheapest");
	ck_assert_str_eq(compare_best(c, 4, price, 3), "cheapest");
	ck_assert_ptr_null(compare_best(c, 4, price, 2));
	ck_assert(compare_differs(c, 4, cut));
	ck_assert(!compare_differs(c, 4, figure("area_m2")));
	/* Two that are the same have no best. */
	ck_assert(!compare_differs(c + 1, 2, cut));
	ck_assert_ptr_null(compare_best(c + 1, 2, cut, 0));
	/* Nor is there one where a price is not known; a variant that is not ready does not count.
	 */
	c[3].values[price].number = NAN;
	ck_assert_ptr_null(compare_best(c, 4, price, 1));
	c[3].ready = false;
	ck_assert_str_eq(compare_best(c, 4, price, 1), "cheapest");
	ck_assert_ptr_null(compare_best(c, 4, cut, 3));
}
END_TEST

START_TEST(every_figure_has_a_name_and_a_key_of_its_own)
{
	for (size_t i = 0; i < COMPARE_FIGURES; i++) {
		ck_assert_uint_le(strlen(compare_name(i)), 16); /* the planner's column */
		for (size_t k = 0; k < i; k++) {
			ck_assert_str_ne(compare_key(i), compare_key(k));
			ck_assert_str_ne(compare_name(i), compare_name(k));
		}
	}
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("compare");

	tcase_add_test(t, what_is_least_of_all_is_called_so);
	tcase_add_test(t, every_figure_has_a_name_and_a_key_of_its_own);
	return suite_run("compare", t);
}
