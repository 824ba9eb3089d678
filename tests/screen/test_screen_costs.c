/* test_screen_costs.c - prices and time, set at Order.
 *
 * The courtyard is 6.20 m by 3.00 m less an opening of 0.60 m by 0.60 m; 106 slabs are ordered. */
#include "screen/drive.h"
#include "suite.h"

static struct drive d;

static void setup(void)
{
	drive_begin(&d);
	drive_start(&d, 50, 110);
	drive_courtyard(&d);
	drive_opening(&d);
	drive_keys(&d, "Tab Tab");
	drive_stack_bond(&d);
	drive_keys(&d, "@Order");
	drive_figure(&d, "TO ORDER", "106");
}

static void teardown(void)
{
	drive_end(&d);
}

/* 106 slabs at 5.00 are 530.00; 10 % margin on that 53.00; together 583.00; 21 % tax 122.43. */
START_TEST(the_price_of_slabs_with_margin_and_tax)
{
	drive_keys(&d, "c 5 Enter");
	drive_figure(&d, "materials", "530.00");
	drive_figure(&d, "TOTAL", "530.00");
	drive_sees(&d, "whose price is not known");
	drive_keys(&d, "m f Wage Enter Enter");
	drive_sees(&d, "Quotation in whole money");
	drive_keys(&d, "f Margin Enter Enter 10 Enter");
	drive_figure(&d, "Margin", "10");
	drive_keys(&d, "f Tax Enter Enter 21 Enter");
	drive_figure(&d, "Tax", "21");
	drive_keys(&d, "Esc");
	drive_figure(&d, "margin", "53.00");
	drive_figure(&d, "tax", "122.43");
	drive_figure(&d, "TOTAL", "705.43");
	drive_keys(&d, "u");
	drive_sees(&d, "Undone: costs: Tax.");
	drive_figure(&d, "TOTAL", "583.00");
}
END_TEST

/* Two days of a saw at 30.00 and one skip at 95.50 beside the slabs' 530.00. */
START_TEST(hire_and_extras_are_typed_in_tables)
{
	drive_keys(&d, "c 5 Enter m f hire Enter Enter");
	drive_sees(&d, "Nothing is hired");
	drive_keys(&d, "a saw Enter");
	drive_sees(&d, "saw");
	drive_keys(&d, "Enter 2 Enter Enter 30 Enter Esc");
	drive_figure(&d, "plant hire", "60.00");
	drive_keys(&d, "m f Anything Enter Enter a skip Enter");
	drive_sees(&d, "skip");
	drive_keys(&d, "Right Right Enter 95,5 Enter Esc");
	drive_figure(&d, "extras", "95.50");
	drive_figure(&d, "rounding", "0.50"); /* to whole money */
	drive_figure(&d, "TOTAL", "686.00");
}
END_TEST

/* Laying takes 40 minutes a square metre unless it is said otherwise; these rows stay. */
START_TEST(rates_and_materials_are_rows_that_stay)
{
	drive_keys(&d, "m f rates Enter Enter");
	drive_sees(&d, "Output rates");
	drive_figure(&d, "laying", "m2");
	drive_keys(&d, "a");
	drive_sees(&d, "These rows are fixed");
	drive_keys(&d, "d");
	drive_sees(&d, "These rows are fixed");
	drive_keys(&d, "Esc m f Materials Enter Enter");
	drive_sees(&d, "to buy now");
	drive_sees(&d, "bulk bags of 850 kg");
	drive_keys(&d, "Home Enter");
	drive_keys(&d, "Esc");
	drive_sees(&d, "[Order]");
}
END_TEST

int main(void)
{
	TCase *tc = tcase_create("costs");

	tcase_add_checked_fixture(tc, setup, teardown);
	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, the_price_of_slabs_with_margin_and_tax);
	tcase_add_test(tc, hire_and_extras_are_typed_in_tables);
	tcase_add_test(tc, rates_and_materials_are_rows_that_stay);
	return suite_run("costs", tc);
}
