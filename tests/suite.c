/* suite.c - see suite.h. */
#include "suite.h"

int suite_run(const char *name, TCase *tc)
{
	Suite *suite = suite_create(name);
	SRunner *runner = srunner_create(suite);
	int failed;

	suite_add_tcase(suite, tc);
	srunner_run_all(runner, CK_NORMAL);
	failed = srunner_ntests_failed(runner);
	srunner_free(runner);
	return failed != 0;
}
