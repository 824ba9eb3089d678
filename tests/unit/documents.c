/* documents.c - the documents that have everything, and documents that are refused. */
#include "unit/documents.h"

#include "program.h"
#include "unit/stores.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

const char full_document[] =
        "{ \"format\": \"slabwright-plan\", \"version\": 1, \"x-from\": [ { \"any\": \"thing\" } "
        "],\n"
        "  \"client\": { \"name\": \"Jos\\u00e9 \\ud83c\\udfe0 \\\"x\\\" / y\" }, \"job\": { "
        "\"title\": \"Court\\tyard\" },\n"
        "  \"variants\": [ { \"name\": \"A\", \"rule_set\": \"UK guidance\", \"x-note\": 1,\n"
        "    \"outline\": { \"nodes\": [ { \"x\": 0, \"y\": -0.001, \"kind\": \"house wall\" },\n"
        "        { \"x\": 6.2e3, \"y\": 0, \"kind\": \"kerb\" }, { \"x\": 6200, \"y\": 4150.5, "
        "\"kind\": \"steps\", \"rise\": 250, \"border\": 2 },\n"
        "        { \"x\": 0, \"y\": 4150, \"kind\": \"existing paving\", \"rise\": -12.345 } ],\n"
        "      \"openings\": [ [ { \"x\": 1000, \"y\": 1000 }, { \"x\": 1450, \"y\": 1000 }, { "
        "\"x\": 1450, \"y\": 1450 } ],\n"
        "        { \"closed\": false, \"nodes\": [ { \"x\": 9.125, \"y\": 9, \"kind\": \"planter\" "
        "} ] },\n"
        "        { \"nodes\": [ { \"x\": 1, \"y\": 2, \"kind\": \"haunch\" } ] } ] },\n"
        "    \"laying\": { \"slab\": { \"name\": \"Grey\", \"length\": 600, \"width\": 297.5, "
        "\"thickness\": 38, \"joint\": 2.5,\n"
        "        \"size\": \"work\", \"directional\": true, \"pack\": 40, \"density\": 2300, "
        "\"price\": 4.35 },\n"
        "      \"bond\": \"herringbone\", \"offset\": 0.3333333333333333, \"rotation\": "
        "-45.000001, \"start\": { \"x\": 1, \"y\": 2 },\n"
        "      \"kerf\": 4, \"fill_width\": 12, \"sliver_width\": 75, \"edges\": \"rough\", "
        "\"breakage\": 0.035,\n"
        "      \"edge_joints\": { \"kerb\": 0, \"house wall\": 10, \"existing paving\": 6.5 },\n"
        "      \"mix\": { \"sizes\": [ { \"length\": 600, \"width\": 300, \"share\": 3 },\n"
        "          { \"share\": 7, \"length\": 450.5, \"width\": 300 } ], \"seed\": 41 },\n"
        "      \"repeat\": { \"name\": \"Wheel\", \"step_x\": 1500, \"step_y\": 300, \"slant\": "
        "600,\n"
        "        \"slabs\": [ { \"x\": 0, \"y\": 0, \"length\": 600, \"width\": 600 },\n"
        "          { \"x\": -900, \"y\": 0.0, \"length\": 300, \"width\": 300 } ] } },\n"
        "    \"borders\": [ { \"lay\": \"stretcher\", \"deep\": 2, \"offset\": 0.25, \"corners\": "
        "\"butted\", \"begin\": \"middle\",\n"
        "        \"widest_joint\": 12.5, \"slab\": { \"name\": \"Sett\", \"length\": 240, "
        "\"width\": "
        "80, \"joint\": 8, \"pack\": 500 } }, {} ],\n"
        "    \"zones\": [ { \"name\": \"Path\", \"level\": -12.5, \"nodes\": [ { \"x\": 5, \"y\": "
        "6 "
        "}, { \"x\": 7.001, \"y\": 8, \"rise\": 3 } ],\n"
        "        \"laying\": { \"bond\": \"mixed\", \"offset\": 0.125, \"along\": \"y\", "
        "\"rotation\": "
        "30, \"start\": { \"x\": 9, \"y\": 10 },\n"
        "          \"slab\": { \"length\": 300, \"width\": 300, \"size\": \"work\" },\n"
        "          \"mix\": { \"seed\": 3, \"sizes\": [ { \"length\": 300, \"width\": 150, "
        "\"share\": "
        "2 } ] },\n"
        "          \"repeat\": { \"step_x\": 300, \"step_y\": 200, \"slabs\": [ { \"x\": 0, \"y\": "
        "0, \"length\": 300, \"width\": 200 } ] } } },\n"
        "      { \"paved\": false, \"closed\": false, \"nodes\": [] } ],\n"
        "    \"surface\": { \"envelope\": \"min\", \"planes\": [ { \"x\": 1, \"y\": 2, \"level\": "
        "-150, \"toward\": 90, \"fall\": 12.5 } ],\n"
        "      \"fixed\": { \"name\": \"path\", \"x\": 3, \"y\": 4, \"level\": -100 } },\n"
        "    \"ground\": { \"bedding\": 30, \"sub_base\": 150, \"benchmark\": 0, \"backsight\": "
        "1345 },\n"
        "    \"edging\": [ { \"kind\": \"kerb\", \"name\": \"Kerb\", \"unit\": 915, \"joint\": 3 } "
        "] },\n"
        "    { \"name\": \"Draft\" }, { \"name\": \"Begun\", \"outline\": { \"closed\": false, "
        "\"nodes\": [] } } ] }\n";

const char beside_document[] =
        "{ \"format\": \"slabwright-plan\", \"version\": 1, \"client\": { \"name\": \"C\" }, "
        "\"job\": { \"title\": \"J\" },\n"
        "\"variants\": [ { \"name\": \"B\",\n"
        "\"outline\": { \"nodes\": [ { \"x\": 0, \"y\": 0, \"channel\": 1 }, { \"x\": 6200, \"y\": "
        "0, \"border\": 1, \"channel\": 2 },\n"
        "{ \"x\": 6200, \"y\": 4150 } ] }, \"borders\": [ {} ],\n"
        "\"edging\": [ { \"kind\": \"kerb\", \"name\": \"Kerb\", \"unit\": 915, \"joint\": 3, "
        "\"depth\": 50, \"corner\": 200,\n"
        "\"profile\": \"tapered\", \"foot\": 62.5, \"height\": 150, \"top\": -5, \"bed\": \"lean "
        "concrete\", \"cement\": 180,\n"
        "\"strip\": 100, \"strip_beyond\": 80, \"haunch\": 120, \"held\": 50, \"haunch_both\": "
        "true, \"density\": 2300,\n"
        "\"price\": 6.1 } ],\n"
        "\"water\": { \"rain\": { \"name\": \"Somewhere\", \"source\": \"invented\", \"minutes\": "
        "10,\n"
        "\"rows\": [ { \"minutes\": 5, \"mm_per_h\": 75 }, { \"minutes\": 15, \"mm_per_h\": 50.125 "
        "} ] },\n"
        "\"runoff\": 0.9, \"permeable\": true, \"surface_rate\": 4.5e-5, \"base_voids\": 0.25, "
        "\"soil_rate\": 0.000000001,\n"
        "\"channels\": [ {}, { \"name\": \"Drain\", \"from\": { \"x\": 1, \"y\": 2 }, \"to\": { "
        "\"x\": 3, \"y\": 4 },\n"
        "\"width\": 150, \"depth\": 80.5, \"fall\": 5, \"roughness\": 0.011, \"outlet\": \"both\" "
        "} ],\n"
        "\"gullies\": [ { \"name\": \"G\", \"x\": 5, \"y\": 6, \"capacity\": 1.25 } ],\n"
        "\"soakaway\": { \"x\": 7, \"y\": -8, \"length\": 2000, \"depth\": 900, \"voids\": 0.3, "
        "\"soil_rate\": 1.2345e-5 } },\n"
        "\"site\": { \"book\": { \"start\": 106366, \"close\": 105263, \"allow\": 6, \"adjust\": "
        "false,\n"
        "\"readings\": [ { \"name\": \"BM\", \"back\": 1216 }, { \"inter\": -25, \"x\": 9, \"y\": "
        "10 }, { \"back\": 0, \"fore\": 484 } ] },\n"
        "\"ground\": [ { \"x\": 11, \"y\": 12, \"level\": -412.5 }, { \"name\": \"lawn\", \"x\": "
        "1, \"y\": 1, \"level\": 0 } ],\n"
        "\"earth\": { \"over_dig\": 200, \"topsoil\": 120, \"bulking\": 0.3, \"compaction\": 0.05 "
        "},\n"
        "\"baseline\": { \"from\": { \"x\": 0, \"y\": 1 }, \"to\": { \"x\": 2, \"y\": 3 } },\n"
        "\"pegs\": [ { \"name\": \"P\", \"x\": 13, \"y\": 14 } ],\n"
        "\"measured\": [ { \"name\": \"corner 1\", \"x\": 0, \"y\": 0, \"level\": -1.5, \"at\": { "
        "\"x\": 2.5, \"y\": -1 } },\n"
        "{ \"x\": 15, \"y\": 16 } ] },\n"
        "\"planters\": [ { \"points\": [ { \"x\": 0, \"y\": 0 }, { \"x\": 3000, \"y\": 0 } ] },\n"
        "{ \"name\": \"Box\", \"points\": [ { \"x\": 0, \"y\": 0 }, { \"x\": 3000, \"y\": 0 }, { "
        "\"x\": 3000, \"y\": 1200 } ],\n"
        "\"closed\": true, \"block\": { \"name\": \"Block\", \"length\": 390, \"width\": 190, "
        "\"height\": 190, \"joint\": 0,\n"
        "\"half\": true, \"corner\": true, \"density\": 1400, \"price\": 2.45 }, \"leaves\": 2, "
        "\"courses\": 3, \"base\": -250,\n"
        "\"tie\": 600, \"cap\": { \"name\": \"Cap\", \"length\": 1000, \"fixing\": 900, \"price\": "
        "12 },\n"
        "\"footing\": { \"width\": 400, \"depth\": 200, \"mix\": \"stabilised sand\", \"cement\": "
        "150 }, \"fill\": 500,\n"
        "\"gravel\": 80, \"weep\": 1500, \"liner\": true, \"soil\": { \"density\": 1700, "
        "\"friction\": 28.5, \"back_slope\": 10,\n"
        "\"surcharge\": 2.5, \"base_friction\": 0.45, \"bearing\": 100 } } ],\n"
        "\"steps\": [ { \"x\": 17, \"y\": 18, \"bottom\": -500 },\n"
        "{ \"name\": \"Lawn\", \"x\": 19, \"y\": 20, \"toward\": 90, \"width\": 1500, \"bottom\": "
        "-690, \"top\": -226.5, \"risers\": 3,\n"
        "\"going\": 320, \"build\": \"built\", \"unit\": { \"name\": \"Riser\", \"length\": 1000, "
        "\"depth\": 60, \"height\": 150,\n"
        "\"density\": 2300, \"price\": 6.2 }, \"tread\": 50, \"overhang\": 20, \"bed\": 25, "
        "\"tread_fall\": 12.5,\n"
        "\"landing\": 1200, \"flank\": 215 } ] } ] }\n";

void document_refused(const char *json, const char *words)
{
	static const char counts[] =
	        "SELECT (SELECT count(*) FROM clients) + (SELECT count(*) FROM jobs)"
	        " + (SELECT count(*) FROM variants) + (SELECT count(*) FROM nodes)"
	        " + (SELECT count(*) FROM repeat_slabs) + (SELECT count(*) FROM mix_sizes)"
	        " + (SELECT count(*) FROM edge_joints) + (SELECT count(*) FROM borders)"
	        " + (SELECT count(*) FROM zones) + (SELECT count(*) FROM zone_nodes)"
	        " + (SELECT count(*) FROM documents)";
	struct store *s = store_in_folder("p.slabs");
	struct error err = { 0 };
	int64_t variant = imported(s, full_document), other = imported(s, beside_document), first,
	        rows = ask_file(program_path("p.slabs"), counts);
	char *before = exported_job(s, variant), *of_other = exported_job(s, other), *after;
	size_t added;

	ck_assert_msg(
	        store_import(s, json, strlen(json), NULL, &first, &added, &err) == STATUS_PLAN,
	        "taken, or another fault: %s", err.text);
	ck_assert_msg(
	        strstr(err.text, words) != NULL, "\"%s\" does not say \"%s\"", err.text, words);
	ck_assert_int_eq(first, 0);
	ck_assert_uint_eq(added, 0);
	after = exported_job(s, variant);
	ck_assert_str_eq(before, after);
	free(after);
	after = exported_job(s, other);
	ck_assert_str_eq(of_other, after);
	ck_assert_int_eq(ask_file(program_path("p.slabs"), counts), rows);
	free(before);
	free(of_other);
	free(after);
	store_close(s);
}
