/* Documents with faults: each is named by its place, and none changes the store. */
#include "program.h"
#include "suite.h"
#include "unit/documents.h"
#include "unit/stores.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void setup(void)
{
	program_folder();
}

#define PLACE "variants[0].laying."
#define REPEAT(members) LAYING("\"repeat\":{" members "}")
#define STEPS "\"step_x\":600,\"step_y\":400"
#define TILE(x, y, length, width)                                                                  \
	"{\"x\":" #x ",\"y\":" #y ",\"length\":" #length ",\"width\":" #width "}"
#define TILES(slabs) REPEAT(STEPS ",\"slabs\":[" slabs "]")
#define HALF TILE(0, 0, 600, 200)
#define EIGHT HALF "," HALF "," HALF "," HALF "," HALF "," HALF "," HALF "," HALF
#define MIX(members) LAYING("\"mix\":{" members "}")
#define SIZE(length, width, share)                                                                 \
	"{\"length\":" #length ",\"width\":" #width ",\"share\":" #share "}"
#define SIZES(sizes) MIX("\"sizes\":[" sizes "]")
#define SIX                                                                                        \
	SIZE(600, 300, 1)                                                                          \
	"," SIZE(600, 300, 1) "," SIZE(600, 300, 1) "," SIZE(600, 300, 1) "," SIZE(                \
	        600, 300, 1) "," SIZE(600, 300, 1)

#define BORDER(members)                                                                            \
	ONE("\"borders\":[{},"                                                                     \
	    "{" members "}]")
#define B1 "variants[0].borders[1]"
#define EDGE(border)                                                                               \
	ONE("\"borders\":[{},{}],\"outline\":{\"nodes\":[{\"x\":0,\"y\":0},{\"x\":1,\"y\":0,"      \
	    "\"border\":" border "}]}")
#define ZONE(members) ONE("\"zones\":[{\"nodes\":[]},{\"nodes\":[]," members "}]")
#define ZONE_LAYING(members) ZONE("\"laying\":{" members "}")
#define Z1 "variants[0].zones[1]"
#define FOUR(item) item "," item "," item "," item
#define TWO(item) item "," item

static const struct {
	const char *json, *words;
} faults[] = {
	/* not JSON */
	{ "", "line 1, column 1: not JSON" },
	{ "{\n  \"a\": 1,\n  \xC3\xA9}", "line 3, column 3: not JSON: a text in double quotes" },
	{ "{\"a\": 01}", "line 1, column 8" },
	{ "{\"a\": [1,]}", "line 1, column 10" },
	{ "{\"a\": 1", "line 1, column 8" },
	{ "{\"a\" 1}", "a ':' should stand here" },
	{ "{'a': 1}", "column 2" },
	{ "{\"a\": NaN}", "column 7" },
	{ "{\"a\": 1} x", "nothing more" },
	{ "{\"a\": \"\xFF\"}", "not UTF-8" },
	{ "{\"a\": \"\\u0000\"}", "cannot be kept" },
	{ "{\"a\": \"\\ud8\"}", "hexadecimal" },
	{ "{\"a\": \"b\nc\"}", "escape" },
	{ "{\"a\": 1.}", "digit" },
	{ "{\"a\": tru}", "a value should stand here" },
	{ "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[", "nested too deeply" },
	/* not a plan, or not of this version */
	{ "[]", "not an object" },
	{ "7", "not an object" },
	{ "{}", "format: not \"slabwright-plan\"" },
	{ "{\"format\":\"other\",\"version\":1}", "format: " },
	{ "{\"format\":\"slabwright-plan\",\"version\":2}", "version: not 1" },
	{ "{\"format\":\"slabwright-plan\",\"version\":\"1\"}", "version: not 1" },
	{ "{\"format\":\"slabwright-plan\"}", "version: " },
	/* members missing, twice, unknown */
	{ "{\"format\":\"slabwright-plan\",\"version\":1,\"job\":{\"title\":\"J\"},\"variants\":[]"
	  "}",
	        "client: missing" },
	{ "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"C\"},\"job\":{},"
	  "\"variants\":[]}",
	        "job.title: missing" },
	{ "{\"format\":\"slabwright-plan\",\"version\":1,\"client\":{\"name\":\"C\"},\"job\":{"
	  "\"title\":\"J\"}}",
	        "variants: missing" },
	{ HEAD "{}]}", "variants[0].name: missing" },
	{ HEAD "{\"name\":\"A\"},{\"name\":\"B\",\"name\":\"C\"}]}",
	        "variants[1].name: this member comes twice" },
	{ ONE("\"outlines\":{}"),
	        "variants[0].outlines: there is no such member; the members are name, uuid" },
	{ SLAB(",\"lenght\":1"), "variants[0].laying.slab.lenght: there is no such member" },
	{ ONE("\"outline\":{}"), "variants[0].outline.nodes: missing" },
	{ ONE("\"outline\":{\"nodes\":[{\"x\":1}]}"), "variants[0].outline.nodes[0].y: missing" },
	{ LAYING("\"slab\":{\"length\":1}"), "variants[0].laying.slab.width: missing" },
	{ ONE("\"surface\":{\"fixed\":{\"x\":1,\"y\":1}}"),
	        "variants[0].surface.fixed.level: missing" },
	{ ONE("\"edging\":[{\"unit\":1000}]"), "variants[0].edging[0].kind: missing" },
	{ ONE("\"ground\":{\"backsight\":1}"), "variants[0].ground: backsight without benchmark" },
	/* wrong types */
	{ HEAD "7]}", "variants[0]: not an object" },
	{ HEAD "{\"name\":7}]}", "variants[0].name: not a text" },
	{ HEAD "{\"name\":\"\"}]}", "variants[0].name: empty" },
	{ ONE("\"outline\":{\"nodes\":[" SQUARE ",{\"x\":\"a\",\"y\":0}]}"),
	        "variants[0].outline.nodes[4].x: not a number; give millimetres, like 6200" },
	{ ONE("\"outline\":{\"nodes\":[{\"x\":null,\"y\":0}]}"),
	        "variants[0].outline.nodes[0].x: not a number" },
	{ ONE("\"outline\":{\"nodes\":{}}"), "variants[0].outline.nodes: not an array" },
	{ ONE("\"outline\":{\"closed\":1,\"nodes\":[]}"),
	        "variants[0].outline.closed: neither true nor false" },
	{ ONE("\"outline\":{\"nodes\":[" SQUARE "],\"openings\":[[{\"x\":true,\"y\":0}]]}"),
	        "variants[0].outline.openings[0][0].x: not a number" },
	{ ONE("\"outline\":{\"nodes\":[],\"openings\":[{\"nodes\":[7]}]}"),
	        "variants[0].outline.openings[0].nodes[0]: not an object" },
	{ ONE("\"outline\":{\"nodes\":[],\"openings\":[7]}"),
	        "variants[0].outline.openings[0]: not an object" },
	{ ONE("\"laying\":[]"), "variants[0].laying: not an object" },
	{ SLAB(",\"directional\":\"yes\""),
	        "variants[0].laying.slab.directional: neither true nor false" },
	{ SLAB(",\"pack\":1.5"), "variants[0].laying.slab.pack: 1.5 is not a whole number" },
	{ ONE("\"edging\":{}"), "variants[0].edging: not an array" },
	/* unknown words */
	{ ONE("\"outline\":{\"nodes\":[{\"x\":0,\"y\":0,\"kind\":\"wall\"}]}"),
	        "variants[0].outline.nodes[0].kind: no such kind of edge as \"wall\"; the words "
	        "are house wall, kerb" },
	{ LAYING("\"bond\":\"brick\""), "variants[0].laying.bond: no such bond as \"brick\"; the "
	                                "words are stack, stretcher" },
	{ LAYING("\"edges\":\"Rough\""), "the words are finished, rough" },
	{ SLAB(",\"size\":\"nominal\""), "the words are coordinating, work" },
	{ ONE("\"surface\":{\"envelope\":\"mean\"}"), "the words are max, min" },
	{ ONE("\"rule_set\":\"Mars\""), "variants[0].rule_set: no rule set \"Mars\"" },
	/* out of reach */
	{ ONE("\"outline\":{\"nodes\":[{\"x\":1000000.001,\"y\":0}]}"),
	        "variants[0].outline.nodes[0].x: 1000000.001 mm is out of reach" },
	{ ONE("\"outline\":{\"nodes\":[{\"x\":1e999,\"y\":0}]}"),
	        "variants[0].outline.nodes[0].x: inf mm is out of reach" },
	{ LAYING("\"slab\":{\"length\":6000,\"width\":300}"),
	        "variants[0].laying.slab.length: 6000 mm is out of reach" },
	{ SLAB(",\"joint\":-1"), "variants[0].laying.slab.joint" },
	{ SLAB(",\"price\":-1"), "variants[0].laying.slab.price: -1 is under 0" },
	{ SLAB(",\"pack\":0"), "variants[0].laying.slab.pack" },
	{ LAYING("\"offset\":1"), "variants[0].laying.offset" },
	{ LAYING("\"rotation\":361"), "variants[0].laying.rotation" },
	{ LAYING("\"sliver_width\":-0.001"), "variants[0].laying.sliver_width: -0.001 is under 0" },
	{ LAYING("\"breakage\":0.6"), "variants[0].laying.breakage" },
	{ ONE("\"surface\":{\"planes\":[{\"fall\":501}]}"), "variants[0].surface.planes[0].fall" },
	{ ONE("\"ground\":{\"bedding\":2001}"), "variants[0].ground.bedding" },
	{ ONE("\"edging\":[{\"kind\":\"kerb\",\"unit\":20001}]"), "variants[0].edging[0].unit" },
	{ ONE("\"edging\":[{\"kind\":\"kerb\",\"unit\":900,\"depth\":2001}]"),
	        "variants[0].edging[0].depth: 2001 mm is out of reach; give from 0 to 2000 mm" },
	{ ONE("\"edging\":[{\"kind\":\"kerb\",\"unit\":900,\"mitred\":true}]"),
	        "variants[0].edging[0].mitred: a mitre needs the depth" },
	{ ONE("\"edging\":[{\"kind\":\"kerb\",\"unit\":900,\"least\":901}]"),
	        "variants[0].edging[0].least: give from 0 up to the length" },
	{ ONE("\"edging\":[{\"kind\":\"kerb\",\"unit\":19}]"),
	        "variants[0].edging[0].unit: give from 20 to 20000 mm" },
	{ ONE("\"edging\":[{\"kind\":\"kerb\",\"unit\":20},{\"kind\":\"kerb\",\"unit\":20}]"),
	        "variants[0].edging[1]: the kind \"kerb\" comes twice" },
	/* repeats */
	{ LAYING("\"bond\":\"mixed\""),
	        PLACE "repeat: mixed bond needs a repeat of 1 to 32 slabs" },
	{ LAYING("\"repeat\":7"), PLACE "repeat: not an object" },
	{ LAYING("\"repeat\":\"Mars\""),
	        PLACE "repeat: no repeat \"Mars\" is in this store's catalogue; give its steps and "
	              "slabs, or the name of one that is: \"Barn floor" },
	{ REPEAT(STEPS), PLACE "repeat.slabs: missing" },
	{ REPEAT("\"step_x\":600,\"slabs\":[" HALF "]"), PLACE "repeat.step_y: missing" },
	{ REPEAT(STEPS ",\"slabs\":{}"), PLACE "repeat.slabs: not an array" },
	{ REPEAT(STEPS ",\"slope\":1,\"slabs\":[]"), PLACE
	        "repeat.slope: there is no such member; the members are name, step_x, step_y, "
	        "slant, slabs" },
	{ REPEAT("\"name\":7," STEPS ",\"slabs\":[]"), PLACE "repeat.name: not a text" },
	{ TILES(""), PLACE "repeat: mixed bond needs a repeat of 1 to 32 slabs" },
	{ TILES(EIGHT "," EIGHT "," EIGHT "," EIGHT "," HALF),
	        PLACE "repeat.slabs: 33 items; give at most 32" },
	{ TILES(HALF ",7"), PLACE "repeat.slabs[1]: not an object" },
	{ TILES(HALF "," HALF ",{\"x\":\"1\",\"y\":0,\"length\":1,\"width\":1}"),
	        PLACE "repeat.slabs[2].x: not a number" },
	{ TILES("{\"x\":0,\"y\":0,\"length\":600}"), PLACE "repeat.slabs[0].width: missing" },
	{ TILES(HALF), PLACE "repeat: its slabs cover 0.120000 m2 of the 0.240000 m2" },
	{ TILES(HALF "," TILE(0, 199.999, 600, 200)), PLACE "repeat: slabs 1 and 2 overlap" },
	{ TILES(TILE(0, 0, 600.001, 400)), PLACE "repeat: slabs 1 and 1 overlap" },
	{ TILES(TILE(0, 0, 600, 19)), PLACE "repeat.slabs[0]: give sides from 20 mm to 5 m" },
	{ TILES(TILE(20001, 0, 600, 400)), PLACE "repeat.slabs[0]: lies more than 20 m out" },
	{ REPEAT("\"step_x\":0,\"step_y\":400,\"slabs\":[" HALF "]"),
	        PLACE "repeat: give steps from 20 mm to 20 m" },
	{ REPEAT(STEPS ",\"slant\":-20000.001,\"slabs\":[" HALF "]"),
	        PLACE "repeat: give steps from 20 mm to 20 m" },
	/* mixes */
	{ LAYING("\"bond\":\"coursed random\""),
	        PLACE "mix: coursed random bond needs 1 to 16 sizes" },
	{ LAYING("\"mix\":\"Patio pack\""), PLACE "mix: not an object" },
	{ MIX("\"seed\":1"), PLACE "mix.sizes: missing" },
	{ MIX("\"seed\":0.5,\"sizes\":[" SIZE(600, 300, 1) "]"),
	        PLACE "mix.seed: 0.5 is not a whole number" },
	{ MIX("\"seed\":-1,\"sizes\":[" SIZE(600, 300, 1) "]"),
	        PLACE "mix.seed: give a whole number from 0 to 1000000000" },
	{ MIX("\"name\":\"P\",\"sizes\":[]"),
	        PLACE "mix.name: there is no such member; the members are seed, sizes" },
	{ SIZES(""), PLACE "mix: coursed random bond needs 1 to 16 sizes" },
	{ SIZES(SIX "," SIX "," SIX), PLACE "mix.sizes: 18 items; give at most 16" },
	{ SIZES("{\"length\":600,\"width\":300}"), PLACE "mix.sizes[0].share: missing" },
	{ SIZES(SIZE(600, 300, 0)), PLACE "mix.sizes[0].share: give from 1 to 1000000" },
	{ SIZES(SIZE(600, 300, 0.5)), PLACE "mix.sizes[0].share: 0.5 is not a whole number" },
	{ SIZES(SIZE(600, 300, 1) "," SIZE(450, 300, 1) "," SIZE(600, 300, 2)),
	        PLACE "mix.sizes[2]: this size is there twice" },
	{ SIZES(SIZE(600, 5001, 1)), PLACE "mix.sizes[0]: give sides from 20 mm to 5 m" },
	/* joints along edges */
	{ LAYING("\"edge_joints\":10"), PLACE "edge_joints: not an object" },
	{ LAYING("\"edge_joints\":{\"house wall\":500}"),
	        PLACE "edge_joints.house wall: give from 0 to 100 mm" },
	{ LAYING("\"edge_joints\":{\"kerb\":-0.001}"),
	        PLACE "edge_joints.kerb: give from 0 to 100 mm" },
	{ LAYING("\"edge_joints\":{\"kerb\":\"10\"}"), PLACE "edge_joints.kerb: not a number" },
	{ LAYING("\"edge_joints\":{\"wall\":10}"), PLACE
	        "edge_joints.wall: there is no such member; the members are house wall, kerb" },
	{ LAYING("\"edge_joints\":{\"kerb\":10,\"kerb\":10}"),
	        PLACE "edge_joints.kerb: this member comes twice" },
	/* borders, and edges that name them */
	{ EDGE("3"), "variants[0].outline: ring 1, edge 2: it names border 3, and the plan has 2; "
	             "name one of them, or 0 for none" },
	{ ONE("\"outline\":{\"nodes\":[{\"x\":0,\"y\":0,\"border\":1}]}"),
	        "variants[0].outline: ring 1, edge 1: it names border 1, and the plan has 0" },
	{ ONE("\"outline\":{\"nodes\":[],\"openings\":[[],[{\"x\":0,\"y\":0,\"border\":1}]]}"),
	        "variants[0].outline: ring 3, edge 1: it names border 1" },
	{ EDGE("-1"), "variants[0].outline.nodes[1].border: -1 is under 0" },
	{ EDGE("0.5"), "variants[0].outline.nodes[1].border: 0.5 is not a whole number" },
	{ EDGE("\"1\""), "variants[0].outline.nodes[1].border: not a number" },
	{ EDGE("1e99"), "variants[0].outline.nodes[1].border: 1e+99 is out of reach" },
	{ ONE("\"borders\":{}"), "variants[0].borders: not an array" },
	{ ONE("\"borders\":[{},7]"), B1 ": not an object" },
	{ ONE("\"borders\":[" FOUR(FOUR("{}")) ",{}]"),
	        "variants[0].borders: 17 items; give at most 16" },
	{ BORDER("\"wide\":1"),
	        B1 ".wide: there is no such member; the members are slab, lay, deep, "
	           "offset, corners, begin, widest_joint" },
	{ BORDER("\"deep\":1,\"deep\":1"), B1 ".deep: this member comes twice" },
	{ BORDER("\"slab\":[]"), B1 ".slab: not an object" },
	{ BORDER("\"slab\":{\"length\":200}"), B1 ".slab.width: missing" },
	{ BORDER("\"slab\":{\"length\":200,\"width\":19}"),
	        B1 ".slab.width: 19 mm is out of reach; give from 20 to 5000 mm" },
	{ BORDER("\"slab\":{\"length\":200,\"width\":100,\"colour\":1}"),
	        B1 ".slab.colour: there is no such member" },
	{ BORDER("\"lay\":1"), B1 ".lay: not a text" },
	{ BORDER("\"lay\":\"header\""), B1 ".lay: no such way to lay a border as \"header\"; the "
	                                   "words are soldier, stretcher" },
	{ BORDER("\"deep\":\"2\""), B1 ".deep: not a number" },
	{ BORDER("\"deep\":1.5"), B1 ".deep: 1.5 is not a whole number" },
	{ BORDER("\"deep\":0"), B1 ".deep: give 1 or 2 courses" },
	{ BORDER("\"deep\":3"), B1 ".deep: give 1 or 2 courses" },
	{ BORDER("\"offset\":true"), B1 ".offset: not a number" },
	{ BORDER("\"offset\":1"), B1 ".offset: " },
	{ BORDER("\"offset\":-0.1"), B1 ".offset: " },
	{ BORDER("\"corners\":null"), B1 ".corners: not a text" },
	{ BORDER("\"corners\":\"round\""), "the words are mitred, butted" },
	{ BORDER("\"begin\":false"), B1 ".begin: not a text" },
	{ BORDER("\"begin\":\"end\""), "the words are corner, middle" },
	{ BORDER("\"widest_joint\":\"15\""), B1 ".widest_joint: not a number" },
	{ BORDER("\"widest_joint\":100.001"),
	        B1 ".widest_joint: 100.001 mm is out of reach; give from 3 to 100 mm" },
	{ BORDER("\"widest_joint\":2.999"), B1 ".widest_joint: 2.999 mm is out of reach" },
	/* zones */
	{ ONE("\"zones\":7"), "variants[0].zones: not an array" },
	{ ONE("\"zones\":[[]]"), "variants[0].zones[0]: not an object" },
	{ ONE("\"zones\":[" TWO(FOUR(FOUR("{\"nodes\":[]}"))) ",{\"nodes\":[]}]"),
	        "variants[0].zones: 33 items; give at most 32" },
	{ ONE("\"zones\":[{\"nodes\":[]},{\"name\":\"Path\"}]"),
	        Z1 ".nodes: missing; this member is needed" },
	{ ONE("\"zones\":[{\"nodes\":{}}]"), "variants[0].zones[0].nodes: not an array" },
	{ ONE("\"zones\":[{\"nodes\":[{\"x\":1}]}]"), "variants[0].zones[0].nodes[0].y: missing" },
	{ ONE("\"zones\":[{\"nodes\":[{\"x\":1,\"y\":1000000.001}]}]"),
	        "variants[0].zones[0].nodes[0].y: 1000000.001 mm is out of reach" },
	{ ONE("\"zones\":[{\"nodes\":[{\"x\":1,\"y\":1,\"rise\":\"1\"}]}]"),
	        "variants[0].zones[0].nodes[0].rise: not a number" },
	{ ONE("\"zones\":[{\"nodes\":[{\"x\":1,\"y\":1,\"kind\":\"kerb\"}]}]"),
	        "variants[0].zones[0].nodes[0].kind: there is no such member; the members are x, "
	        "y, "
	        "rise" },
	{ ONE("\"zones\":[{\"nodes\":[{\"x\":1,\"y\":1,\"border\":0}]}]"),
	        "variants[0].zones[0].nodes[0].border: there is no such member" },
	{ ZONE("\"depth\":1"), Z1 ".depth: there is no such member; the members are name, closed, "
	                          "nodes, paved, level, laying" },
	{ ZONE("\"name\":7"), Z1 ".name: not a text" },
	{ ZONE("\"name\":\"\\ud800\""), Z1 ".name: half a character" },
	{ ZONE("\"closed\":\"no\""), Z1 ".closed: neither true nor false" },
	{ ZONE("\"paved\":1"), Z1 ".paved: neither true nor false" },
	{ ZONE("\"level\":true"), Z1 ".level: not a number" },
	{ ZONE("\"level\":-1000.001"),
	        Z1 ".level: -1000.001 mm is out of reach; give from -1000 to 1000 mm" },
	{ ZONE("\"laying\":[]"), Z1 ".laying: not an object" },
	{ ZONE("\"paved\":false,\"laying\":{}"), Z1 ".laying: a zone that is not paved has none" },
	{ ZONE("\"laying\":{},\"paved\":false"), Z1 ".laying: a zone that is not paved has none" },
	{ ZONE_LAYING("\"kerf\":3"),
	        Z1 ".laying.kerf: there is no such member; the members are slab, "
	           "bond, offset, along, rotation, start, repeat, mix" },
	{ ZONE_LAYING("\"edge_joints\":{}"), Z1 ".laying.edge_joints: there is no such member" },
	{ ZONE_LAYING("\"bond\":\"brick\""), Z1 ".laying.bond: no such bond as \"brick\"" },
	{ ZONE_LAYING("\"bond\":\"mixed\""), Z1 ".laying.repeat: mixed bond needs a repeat" },
	{ ZONE_LAYING("\"bond\":\"coursed random\""), Z1 ".laying.mix: coursed random bond needs" },
	{ ZONE_LAYING("\"repeat\":{" STEPS ",\"slabs\":[" HALF "]}"),
	        Z1 ".laying.repeat: its slabs cover 0.120000 m2" },
	{ ZONE_LAYING("\"repeat\":\"Mars\""), Z1 ".laying.repeat: no repeat \"Mars\"" },
	{ ZONE_LAYING("\"mix\":{\"sizes\":[]}"), Z1 ".laying.mix: coursed random bond needs" },
	{ ZONE_LAYING("\"rotation\":361"), Z1 ".laying.rotation: give degrees" },
	{ ZONE_LAYING("\"offset\":1"), Z1 ".laying.offset: " },
	{ ZONE_LAYING("\"along\":\"z\""), Z1 ".laying.along: no such direction of the courses" },
	{ ZONE_LAYING("\"start\":{\"x\":1}"), Z1 ".laying.start.y: missing" },
	{ ZONE_LAYING("\"slab\":{\"length\":5001,\"width\":100}"),
	        Z1 ".laying.slab.length: 5001 mm is out of reach" },
	/* UUIDs and texts */
	{ ONE("\"uuid\":\"1234\""), "variants[0].uuid: not a UUID" },
	{ ONE("\"uuid\":\"0123456789ab-4cde-8f01-23456789abcd----\""),
	        "variants[0].uuid: not a UUID" },
	{ HEAD "{\"name\":\"A\",\"uuid\":\"01234567-89ab-4cde-8f01-23456789abcd\"},"
	       "{\"name\":\"B\",\"uuid\":\"01234567-89AB-4cde-8f01-23456789abcd\"}]}",
	        "variants[1].uuid: variants[0] has the same UUID" },
	{ HEAD "{\"name\":\"\\ud800\"}]}", "variants[0].name: half a character" },
	/* the last of several */
	{ HEAD "{\"name\":\"Fine\"},{\"name\":\"B\",\"ground\":{\"sub_base\":-5}}]}",
	        "variants[1].ground.sub_base" },
};

START_TEST(a_fault_is_named_by_its_place_and_nothing_is_written)
{
	document_refused(faults[_i].json, faults[_i].words);
}
END_TEST

START_TEST(a_text_with_a_nul_byte_is_refused)
{
	static const char nul[] = "{\"format\":\"slab\0wright\"}";
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t first;
	size_t added;

	ck_assert_int_eq(
	        store_import(s, nul, sizeof nul - 1, NULL, &first, &added, &err), STATUS_PLAN);
	ck_assert_ptr_nonnull(strstr(err.text, "line 1, column 16"));
	store_close(s);
}
END_TEST

static const char *const whole[] = { full_document, beside_document };

START_TEST(a_document_cut_short_anywhere_is_refused)
{
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t first;
	size_t added, n = strlen(whole[_i]) - 2; /* without the last brace */

	for (size_t i = 0; i <= n; i++)
		ck_assert_msg(
		        store_import(s, whole[_i], i, NULL, &first, &added, &err) == STATUS_PLAN,
		        "cut at %zu", i);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), "SELECT count(*) FROM clients"), 0);
	store_close(s);
}
END_TEST

START_TEST(a_document_with_a_byte_changed_never_breaks_the_store)
{
	struct chance d = { .state = 99 };
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	char *json = strdup(whole[_i]);
	int64_t first;
	size_t added, n = strlen(whole[_i]);

	for (int i = 0; i < 1500; i++) {
		size_t at = (size_t)chance_int(&d, 0, (int64_t)n - 1);
		enum status st;

		json[at] = (char)chance_int(&d, i % 2 ? 0x20 : 0, i % 2 ? 0x7E : 0xFF);
		st = store_import(s, json, n, NULL, &first, &added, &err);
		ck_assert(st == STATUS_OK || st == STATUS_PLAN);
		if (st == STATUS_OK && first)
			free(exported_job(s, first));
		json[at] = whole[_i][at];
	}
	free(json);
	store_close(s);
	ck_assert_int_eq(ask_file(program_path("p.slabs"),
	                         "SELECT integrity_check = 'ok' FROM pragma_integrity_check"),
	        1);
	ck_assert_int_eq(
	        ask_file(program_path("p.slabs"), "SELECT count(*) FROM pragma_foreign_key_check"),
	        0);
}
END_TEST

static enum status always_broken(const struct plan *plan, struct error *err)
{
	return error_set(err, STATUS_PLAN, "edge 1 of %zu crosses", plan->rings[0].count);
}

START_TEST(an_outline_is_checked_for_soundness_and_a_draft_is_not)
{
	static const char closed[] = ONE("\"outline\":{\"nodes\":[" SQUARE "]}"),
	                  open[] = ONE("\"outline\":{\"closed\":false,\"nodes\":[" SQUARE "]}"),
	                  none[] = SLAB("");
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t first;
	size_t added;

	ck_assert_int_eq(
	        store_import(s, closed, strlen(closed), always_broken, &first, &added, &err),
	        STATUS_PLAN);
	ck_assert_str_eq(err.text, "variants[0].outline: edge 1 of 4 crosses");
	ck_assert_int_eq(store_import(s, open, strlen(open), always_broken, &first, &added, &err),
	        STATUS_OK);
	ck_assert_int_eq(store_import(s, none, strlen(none), always_broken, &first, &added, &err),
	        STATUS_OK);
	store_close(s);
}
END_TEST

START_TEST(a_large_document_is_read_in_linear_time)
{
	enum { CORNERS = 60000 };
	char *json = malloc(CORNERS * 40 + 400), *to = json;
	struct store *s = store_in_folder("p.slabs");
	struct arena mem = { 0 };
	struct error err = { 0 };
	struct plan plan;

	to += sprintf(to, HEAD "{\"name\":\"A\",\"outline\":{\"nodes\":[");
	for (int i = 0; i < CORNERS; i++)
		to += sprintf(to, "%s{\"x\":%d,\"y\":%d.5}", i ? "," : "", i, i % 7);
	sprintf(to, "]}}]}");
	/* Time that grows with the square would run into the test's limit. */
	ck_assert_int_eq(store_plan(s, imported(s, json), &mem, &plan, &err), STATUS_OK);
	ck_assert_uint_eq(plan.rings[0].count, CORNERS);
	ck_assert_int_eq(plan.rings[0].nodes[CORNERS - 1].x_um, (CORNERS - 1) * INT64_C(1000));
	arena_free(&mem);
	free(json);
	store_close(s);
}
END_TEST

START_TEST(a_byte_order_mark_is_passed_over)
{
	struct store *s = store_in_folder("p.slabs");
	char json[600];

	snprintf(json, sizeof json, "\xEF\xBB\xBF%s\r\n\t ", SLAB(""));
	ck_assert_int_eq(imported(s, json), 1);
	store_close(s);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("faults");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_loop_test(t, a_fault_is_named_by_its_place_and_nothing_is_written, 0,
	        sizeof faults / sizeof *faults);
	tcase_add_test(t, a_text_with_a_nul_byte_is_refused);
	tcase_add_loop_test(t, a_document_cut_short_anywhere_is_refused, 0, 2);
	tcase_add_loop_test(t, a_document_with_a_byte_changed_never_breaks_the_store, 0, 2);
	tcase_add_test(t, an_outline_is_checked_for_soundness_and_a_draft_is_not);
	tcase_add_test(t, a_large_document_is_read_in_linear_time);
	tcase_add_test(t, a_byte_order_mark_is_passed_over);
	return suite_run("exchange faults", t);
}
