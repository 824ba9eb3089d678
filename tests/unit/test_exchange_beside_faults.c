/* Documents with faults in water, site, planters, steps and edging: each is named by its place. */
#include "program.h"
#include "suite.h"
#include "unit/documents.h"

static void setup(void)
{
	program_folder();
}

#define WATER(members) ONE("\"water\":{" members "}")
#define W "variants[0].water"
#define ROWS(rows) WATER("\"rain\":{\"rows\":[" rows "]}")
#define ROW(minutes, mm) "{\"minutes\":" #minutes ",\"mm_per_h\":" #mm "}"
#define CHANNEL(members) WATER("\"channels\":[" LYING ",{\"to\":{\"x\":9,\"y\":9}," members "}]")
#define LYING "{\"to\":{\"x\":1,\"y\":1}}"
#define C1 W ".channels[1]"
#define GULLY(members) WATER("\"gullies\":[{\"x\":1,\"y\":2" members "}]")
#define SOAKAWAY(members) WATER("\"soakaway\":{\"x\":1,\"y\":2" members "}")
#define EDGE(channel)                                                                              \
	ONE("\"water\":{\"channels\":[" LYING "]},\"outline\":{\"nodes\":[{\"x\":0,\"y\":0},"      \
	    "{\"x\":1,\"y\":0,\"channel\":" channel "}]}")
#define SITE(members) ONE("\"site\":{" members "}")
#define S "variants[0].site"
#define READING(members) SITE("\"book\":{\"readings\":[{},{" members "}]}")
#define PLANTER(members)                                                                           \
	ONE("\"planters\":[{\"points\":[{\"x\":0,\"y\":0},{\"x\":1,\"y\":0}]," members "}]")
#define P "variants[0].planters[0]"
#define POINTS(points) ONE("\"planters\":[{\"points\":[" points "]}]")
#define POINT(x) "{\"x\":" #x ",\"y\":0}"
#define STEPS(members) ONE("\"steps\":[{\"x\":0,\"y\":0,\"bottom\":0," members "}]")
#define T "variants[0].steps[0]"
#define KERB(members) ONE("\"edging\":[{\"kind\":\"kerb\",\"unit\":900," members "}]")
#define K "variants[0].edging[0]"
#define SIX(item) item "," item "," item "," item "," item "," item
#define THIRTY_SIX(item) SIX(SIX(item))

static const struct {
	const char *json, *words;
} faults[] = {
	/* rain */
	{ ONE("\"water\":[]"), W ": not an object" },
	{ WATER("\"rains\":{}"),
	        W ".rains: there is no such member; the members are rain, runoff, "
	          "permeable, surface_rate, base_voids, soil_rate, channels, gullies, "
	          "soakaway" },
	{ WATER("\"rain\":{\"name\":7}"), W ".rain.name: not a text" },
	{ WATER("\"rain\":{\"source\":\"\\ud800\"}"), W ".rain.source: half a character" },
	{ WATER("\"rain\":{\"minutes\":-1}"),
	        W ".rain.minutes: -1 is out of reach; give from 0 to 100000" },
	{ ROWS("{\"minutes\":5}"), W ".rain.rows[0].mm_per_h: missing" },
	{ ROWS(ROW(0, 50)), W ".rain.rows[0].minutes: 0 is out of reach; give from 1 to 100000" },
	{ ROWS(ROW(1.5, 50)), W ".rain.rows[0].minutes: 1.5 is not a whole number" },
	{ ROWS(ROW(5, 0)),
	        W ".rain.rows[0].mm_per_h: 0 mm/h is out of reach; give from 0.001 to 1000 "
	          "mm/h" },
	{ ROWS(ROW(5, 1000.001)), W ".rain.rows[0].mm_per_h: 1000.001 mm/h is out of reach" },
	{ ROWS(ROW(5, 50) "," ROW(5, 40)),
	        W ".rain.rows[1].minutes: no more than in the row before" },
	{ ROWS(THIRTY_SIX(ROW(5, 50))), W ".rain.rows: 36 items; give at most 32" },
	/* water */
	{ WATER("\"runoff\":1.000001"), W ".runoff: 1.000001 is out of reach; give from 0 to 1" },
	{ WATER("\"permeable\":1"), W ".permeable: neither true nor false" },
	{ WATER("\"surface_rate\":0.100001"),
	        W ".surface_rate: 0.100001 m/s is out of reach; give from 0 to 0.1 m/s" },
	{ WATER("\"surface_rate\":\"fast\""),
	        W ".surface_rate: not a number; give metres a second, like 0.00001" },
	{ WATER("\"base_voids\":-0.000001"), W ".base_voids: -1e-06 is out of reach" },
	{ WATER("\"soil_rate\":0.010000001"), W ".soil_rate: 0.010000001 m/s is out of reach" },
	/* channels */
	{ WATER("\"channels\":{}"), W ".channels: not an array" },
	{ WATER("\"channels\":[" THIRTY_SIX(LYING) "]"), W ".channels: 36 items; give at most 32" },
	{ WATER("\"channels\":[" LYING ",{}]"), "variants[0]: water.channels[1]: it lies along no "
	                                        "edge, and its two points are one" },
	{ WATER("\"channels\":[{\"from\":{\"x\":1}}]"), W ".channels[0].from.y: missing" },
	{ WATER("\"channels\":[{\"to\":{\"x\":1,\"y\":1000000.001}}]"),
	        W ".channels[0].to.y: 1000000.001 mm is out of reach" },
	{ CHANNEL("\"width\":19.999"),
	        C1 ".width: 19.999 mm is out of reach; give from 20 to 2000 mm" },
	{ CHANNEL("\"width\":2000.001"), C1 ".width: 2000.001 mm" },
	{ CHANNEL("\"depth\":9"), C1 ".depth: 9 mm is out of reach; give from 10 to 2000 mm" },
	{ CHANNEL("\"fall\":501"),
	        C1 ".fall: 501 mm per m is out of reach; give from 0 to 500 mm per m" },
	{ CHANNEL("\"fall\":-1"), C1 ".fall: -1 mm per m" },
	{ CHANNEL("\"roughness\":0.004"),
	        C1 ".roughness: 0.004 is out of reach; give from 0.005 to 0.1" },
	{ CHANNEL("\"outlet\":\"middle\""), C1 ".outlet: no such outlet of a channel as "
	                                       "\"middle\"; the words are first, last, both" },
	{ EDGE("2"),
	        "variants[0]: ring 1, edge 2: it names channel 2, and the plan has 1; name one of "
	        "them, or 0 for none" },
	{ EDGE("-1"), "variants[0].outline.nodes[1].channel: -1 is under 0" },
	{ EDGE("0.5"), "variants[0].outline.nodes[1].channel: 0.5 is not a whole number" },
	/* gullies, soakaway */
	{ WATER("\"gullies\":[{\"x\":1}]"), W ".gullies[0].y: missing" },
	{ GULLY(",\"capacity\":1000.001"),
	        W ".gullies[0].capacity: 1000.001 l/s is out of reach; give from 0 to 1000 l/s" },
	{ GULLY(",\"capacity\":-1"), W ".gullies[0].capacity: -1 l/s" },
	{ WATER("\"gullies\":[" THIRTY_SIX("{\"x\":1,\"y\":1}") "]"), W ".gullies: 36 items" },
	{ WATER("\"soakaway\":{\"x\":1}"), W ".soakaway.y: missing" },
	{ WATER("\"soakaway\":7"), W ".soakaway: not an object" },
	{ SOAKAWAY(",\"length\":99"),
	        W ".soakaway.length: 99 mm is out of reach; give from 100 to 50000 mm" },
	{ SOAKAWAY(",\"width\":50000.001"), W ".soakaway.width: 50000.001 mm" },
	{ SOAKAWAY(",\"depth\":10001"),
	        W ".soakaway.depth: 10001 mm is out of reach; give from 100 to 10000 mm" },
	{ SOAKAWAY(",\"voids\":0"), W ".soakaway.voids: 0 is out of reach; give from 0.01 to 1" },
	{ SOAKAWAY(",\"soil_rate\":0"),
	        W ".soakaway.soil_rate: 0 m/s is out of reach; give from 1e-09 to 0.01 m/s" },
	{ SOAKAWAY(",\"soil\":1"), W ".soakaway.soil: there is no such member" },
	/* site */
	{ SITE("\"books\":1"),
	        S ".books: there is no such member; the members are book, ground, earth, "
	          "baseline, pegs, measured" },
	{ SITE("\"book\":{\"start\":1000000.001}"),
	        S ".book.start: 1000000.001 mm is out of reach" },
	{ SITE("\"book\":{\"close\":null}"), S ".book.close: not a number" },
	{ SITE("\"book\":{\"allow\":-1}"),
	        S ".book.allow: -1 mm is out of reach; give from 0 to 1000" },
	{ SITE("\"book\":{\"adjust\":0}"), S ".book.adjust: neither true nor false" },
	{ READING("\"back\":\"1\""), S ".book.readings[1].back: not a number" },
	{ READING("\"back\":20000.001"),
	        S ".book.readings[1].back: 20000.001 mm is out of reach; give "
	          "from -20000 to 20000 mm" },
	{ READING("\"inter\":-20001"), S ".book.readings[1].inter: -20001 mm" },
	{ READING("\"fore\":20001"), S ".book.readings[1].fore: 20001 mm" },
	{ READING("\"x\":1"), S ".book.readings[1]: x without y; give both, or neither" },
	{ READING("\"y\":1"), S ".book.readings[1]: y without x" },
	{ READING("\"level\":1"), S ".book.readings[1].level: there is no such member" },
	{ SITE("\"ground\":[{\"x\":1,\"y\":1}]"), S ".ground[0].level: missing" },
	{ SITE("\"ground\":[{\"name\":1,\"x\":1,\"y\":1,\"level\":1}]"),
	        S ".ground[0].name: not a text" },
	{ SITE("\"earth\":{\"over_dig\":10001}"),
	        S ".earth.over_dig: 10001 mm is out of reach; give from 0 to 10000 mm" },
	{ SITE("\"earth\":{\"topsoil\":-1}"), S ".earth.topsoil: -1 mm is out of reach" },
	{ SITE("\"earth\":{\"bulking\":2.1}"),
	        S ".earth.bulking: 2.1 is out of reach; give from 0 to 2" },
	{ SITE("\"earth\":{\"compaction\":1}"),
	        S ".earth.compaction: 1 is out of reach; give from 0 to 0.9" },
	{ SITE("\"baseline\":{\"from\":{\"x\":0,\"y\":0}}"), S ".baseline.to: missing" },
	{ SITE("\"baseline\":{\"from\":{\"x\":1,\"y\":2},\"to\":{\"x\":1,\"y\":2}}"),
	        S ".baseline: its two points are one; give two that lie apart" },
	{ SITE("\"pegs\":[{\"x\":1}]"), S ".pegs[0].y: missing" },
	{ SITE("\"measured\":[{\"y\":1}]"), S ".measured[0].x: missing" },
	{ SITE("\"measured\":[{\"x\":1,\"y\":1,\"at\":{\"x\":1}}]"),
	        S ".measured[0].at.y: missing" },
	{ SITE("\"measured\":[{\"x\":1,\"y\":1,\"level\":1000001}]"),
	        S ".measured[0].level: 1000001 mm is out of reach" },
	/* planters */
	{ ONE("\"planters\":{}"), "variants[0].planters: not an array" },
	{ ONE("\"planters\":[" THIRTY_SIX("{}") "]"),
	        "variants[0].planters: 36 items; give at most 16" },
	{ ONE("\"planters\":[{}]"), P ".points: missing" },
	{ POINTS(POINT(0)), P ".points: 1 of them; give from 2 to 64" },
	{ POINTS(THIRTY_SIX(POINT(0)) "," THIRTY_SIX(POINT(1))),
	        P ".points: 72 items; give at most 64" },
	{ POINTS(POINT(0) "," POINT(1) "," POINT(1)), P ".points[2]: the same as the one before" },
	{ POINTS("{\"x\":1}"), P ".points[0].y: missing" },
	{ PLANTER("\"closed\":true"), P ".points: 2 of them; give from 3 to 64" },
	{ ONE("\"planters\":[{\"closed\":true,\"points\":[" POINT(0) "," POINT(1) "," POINT(
	          0) "]}]"),
	        P ".points[0]: the same as the one before" },
	{ PLANTER("\"block\":{\"length\":440,\"width\":100}"), P ".block.height: missing" },
	{ PLANTER("\"block\":{\"length\":440,\"width\":19,\"height\":215}"),
	        P ".block.width: 19 mm is out of reach; give from 20 to 2000 mm" },
	{ PLANTER("\"block\":{\"length\":440,\"width\":100,\"height\":215,\"joint\":101}"),
	        P ".block.joint: 101 mm" },
	{ PLANTER("\"leaves\":3"), P ".leaves: 3 is out of reach; give from 1 to 2" },
	{ PLANTER("\"courses\":0"), P ".courses: 0 is out of reach; give from 1 to 20" },
	{ PLANTER("\"tie\":-1"), P ".tie: -1 mm is out of reach; give from 0 to 100000 mm" },
	{ PLANTER("\"cap\":{\"length\":20001}"), P ".cap.length: 20001 mm" },
	{ PLANTER("\"cap\":{\"price\":-1}"), P ".cap.price: -1 is under 0" },
	{ PLANTER("\"footing\":{\"mix\":\"mud\"}"), P ".footing.mix: no such mix as \"mud\"; the "
	                                              "words are stabilised sand, lean concrete" },
	{ PLANTER("\"footing\":{\"cement\":1001}"),
	        P ".footing.cement: 1001 kg/m3 is out of reach; give from 0 to 1000 kg/m3" },
	{ PLANTER("\"footing\":{\"width\":5001}"), P ".footing.width: 5001 mm" },
	{ PLANTER("\"fill\":10001"), P ".fill: 10001 mm" },
	{ PLANTER("\"gravel\":-1"), P ".gravel: -1 mm" },
	{ PLANTER("\"weep\":100001"), P ".weep: 100001 mm" },
	{ PLANTER("\"soil\":{\"density\":499}"),
	        P ".soil.density: 499 kg/m3 is out of reach; give from 500 to 3000 kg/m3" },
	{ PLANTER("\"soil\":{\"friction\":0.999999}"),
	        P ".soil.friction: 0.999999 degrees is out of reach; give from 1 to 60 degrees" },
	{ PLANTER("\"soil\":{\"back_slope\":60.1}"), P ".soil.back_slope: 60.1 degrees" },
	{ PLANTER("\"soil\":{\"surcharge\":1000.001}"),
	        P ".soil.surcharge: 1000.001 kN/m2 is out of reach; give from 0 to 1000 kN/m2" },
	{ PLANTER("\"soil\":{\"base_friction\":2.1}"), P ".soil.base_friction: 2.1 is out" },
	{ PLANTER("\"soil\":{\"bearing\":-1}"), P ".soil.bearing: -1 kN/m2" },
	/* steps */
	{ ONE("\"steps\":[{\"x\":0,\"y\":0}]"), T ".bottom: missing" },
	{ STEPS("\"width\":99"), T ".width: 99 mm is out of reach; give from 100 to 100000 mm" },
	{ STEPS("\"toward\":361"), T ".toward: 361 degrees is out of reach" },
	{ STEPS("\"top\":1000000.001"), T ".top: 1000000.001 mm is out of reach" },
	{ STEPS("\"risers\":101"), T ".risers: 101 is out of reach; give from 0 to 100" },
	{ STEPS("\"risers\":2.5"), T ".risers: 2.5 is not a whole number" },
	{ STEPS("\"going\":49"), T ".going: 49 mm is out of reach; give from 50 to 5000 mm" },
	{ STEPS("\"build\":\"cast\""),
	        T ".build: no such way to build steps as \"cast\"; the words are "
	          "units, built" },
	{ STEPS("\"unit\":{\"length\":1000,\"depth\":350}"), T ".unit.height: missing" },
	{ STEPS("\"unit\":{\"length\":1000,\"depth\":350,\"height\":9}"),
	        T ".unit.height: 9 mm is out of reach; give from 10 to 2000 mm" },
	{ STEPS("\"tread\":1001"), T ".tread: 1001 mm" },
	{ STEPS("\"overhang\":501"), T ".overhang: 501 mm" },
	{ STEPS("\"bed\":-1"), T ".bed: -1 mm" },
	{ STEPS("\"tread_fall\":501"), T ".tread_fall: 501 mm per m" },
	{ STEPS("\"landing\":-1"), T ".landing: -1 mm" },
	{ STEPS("\"flank\":5001"), T ".flank: 5001 mm" },
	{ ONE("\"steps\":[" THIRTY_SIX("{}") "]"), "variants[0].steps: 36 items; give at most 16" },
	/* edging */
	{ KERB("\"corner\":2001"), K ".corner: 2001 mm is out of reach; give from 0 to 2000 mm" },
	{ KERB("\"profile\":\"round\""),
	        K ".profile: no such profile of a unit as \"round\"; the words "
	          "are straight, tapered, tongue" },
	{ KERB("\"foot\":-1"), K ".foot: -1 mm" },
	{ KERB("\"height\":2001"), K ".height: 2001 mm" },
	{ KERB("\"top\":-1001"), K ".top: -1001 mm is out of reach; give from -1000 to 1000 mm" },
	{ KERB("\"bed\":\"sand\""), K ".bed: no such mix as \"sand\"" },
	{ KERB("\"cement\":-1"), K ".cement: -1 kg/m3" },
	{ KERB("\"strip\":1001"), K ".strip: 1001 mm" },
	{ KERB("\"strip_beyond\":1001"), K ".strip_beyond: 1001 mm" },
	{ KERB("\"haunch\":2001"), K ".haunch: 2001 mm" },
	{ KERB("\"held\":2001"), K ".held: 2001 mm" },
	{ KERB("\"height\":150,\"held\":150.001"),
	        K ".held: give from 0 up to the height of the unit" },
	{ KERB("\"haunch_both\":1"), K ".haunch_both: neither true nor false" },
	{ KERB("\"density\":20001"), K ".density: 20001 kg/m3" },
	{ KERB("\"price\":-0.01"), K ".price: -0.01 is under 0" },
};

START_TEST(a_fault_is_named_by_its_place_and_nothing_is_written)
{
	document_refused(faults[_i].json, faults[_i].words);
}
END_TEST

int main(void)
{
	TCase *t = tcase_create("faults");

	tcase_add_checked_fixture(t, setup, program_folder_remove);
	tcase_set_timeout(t, 60);
	tcase_add_loop_test(t, a_fault_is_named_by_its_place_and_nothing_is_written, 0,
	        sizeof faults / sizeof *faults);
	return suite_run("exchange faults beside the paving", t);
}
