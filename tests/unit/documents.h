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

/* A document with every member, in another layout than the program's own; two drafts follow. */
extern const char full_document[];

#endif
