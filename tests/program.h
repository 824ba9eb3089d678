/* program.h - running the program as a user's shell does, in a folder of its own. */
#ifndef TESTS_PROGRAM_H
#define TESTS_PROGRAM_H

#include <stddef.h>

/* What a run gave: texts end in NUL and are freed by program_done. */
struct output {
	char *out, *err;
	size_t out_length;
	int status; /* exit status; 128 + signal where one ended it */
};

/* A fresh folder for home, stores and documents; its name ends without '/'. Variables that would
 * steer the program to the user's own files are set to it or unset. */
const char *program_folder(void);
void program_folder_remove(void);

/* PATH in that folder; good until the next call but three. */
const char *program_path(const char *name);

/* Writes a file there. */
void program_write(const char *name, const char *text);

/* Runs the program named by the environment's SLABWRIGHT with these words (up to a NULL) and this
 * standard input; neither input nor output is a terminal. */
void program_run(struct output *o, const char *input, const char *const words[]);

/* The same with standard output going to this descriptor; o->out is empty. */
void program_run_to(struct output *o, int out_fd, const char *const words[]);

void program_done(struct output *o);

/* Writes a plan document with one variant: 6.2 by 4.1505 m, house wall below, an arc of rise 0.25 m
 * above. x is the x of its third corner, as JSON; 6200 is right. */
void program_document(const char *name, const char *client, const char *job, const char *variant,
        const char *x, const char *bond);

/* Imports Ann/Yard/A, in stretcher bond, into the usual store. */
void program_import_yard(struct output *o);

/* The last run failed with this status, one line on standard error that says this, and no output;
 * done. */
void assert_refused(struct output *o, int status, const char *said);

#define RUN(o, ...) program_run((o), "", (const char *const[]){ __VA_ARGS__, NULL })

#endif
