/* suite.h - what every test program ends with. */
#ifndef TESTS_SUITE_H
#define TESTS_SUITE_H

#include <check.h>

/* Runs one case under the name given and says what failed; the program's exit status. */
int suite_run(const char *name, TCase *tc);

#endif
