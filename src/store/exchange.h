/* exchange.h - a document that was read, for merging. */
#ifndef SLABWRIGHT_STORE_EXCHANGE_H
#define SLABWRIGHT_STORE_EXCHANGE_H

#include "entries.h"
#include "plan_doc.h"

/* A client (name) or a job (title). */
struct owner {
	const char *name, *uuid, *notes; /* the last two "" where not given */
	bool archived;
};

struct job_doc {
	struct owner owner;
	struct variant_doc *variants;
	const struct doc **places; /* where each variant stands in the document */
	size_t count;
};

struct document {
	const char *format;
	int64_t version;
	struct owner client;
	struct job_doc one; /* of a document of one job */
	struct job_doc *jobs;
	size_t job_count;
};

/* Merges the document as store_merge says, in the caller's transaction. */
enum status document_merge(struct reader *r, const struct document *doc, enum store_clashes clashes,
        struct arena *mem, struct store_merged *out);

#endif
