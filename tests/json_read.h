/* json_read.h - looking into JSON that the program wrote, with a reader that is not its own. */
#ifndef TESTS_JSON_READ_H
#define TESTS_JSON_READ_H

#include <stdbool.h>

bool json_is_valid(const char *json);

/* The value at a path like "$.laying.whole"; fails the test when it is not there or not a number.
 */
double json_number(const char *json, const char *path);

/* The value at the path as text, to be freed; "null" for null, NULL where nothing is. */
char *json_string(const char *json, const char *path);

/* Items of the array at the path; -1 where there is none. */
int json_length(const char *json, const char *path);

#endif
