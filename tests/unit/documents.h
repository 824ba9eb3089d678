/* documents.h - plans as JSON, for tests: put together from pieces, and one that has everything. */
#ifndef TESTS_DOCUMENTS_H
#define TESTS_DOCUMENTS_H

#define HEAD                                                                                       \
	"{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"C\"},\"job\":{"      \
	"\"title\":\"J\"},\"variants\":["
#define ONE(members) HEAD "{\"name\":\"A\"," members "}]}"
#define SQUARE "{\"x\":0,\"y\":0},{\"x\":1000,\"y\":0},{\"x\":1000,\"y\":1000},{\"x\":0,\"y\":1000}"
#define LAYING(members) ONE("\"laying\":{" members "}")
#define SLAB(members) LAYING("\"slab\":{\"length\":600,\"width\":300" members "}")

/* Documents with every member, in another layout than the program's own: of the paving, two drafts
 * follow; and of edging, water, site, planters and steps. */
extern const char full_document[];
extern const char beside_document[];

/* Fails the test unless a store that has both refuses this one with those words and
 * stays as it is. */
void document_refused(const char *json, const char *words);

#endif
