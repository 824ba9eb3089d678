/* version_3.c - what the program wrote that made stores of version 3. */
#include "unit/version_3.h"

#include "unit/stores.h"

static const char *const statements[] = {
	"CREATE TABLE clients (id INTEGER PRIMARY KEY, uuid TEXT NOT NULL UNIQUE, name TEXT NOT "
	"NULL UNIQUE CHECK (name <> ''), changed TEXT NOT NULL DEFAULT "
	"(strftime('%Y-%m-%dT%H:%M:%SZ', 'now'))) STRICT;",
	"INSERT INTO clients "
	"VALUES(1,'00000000-0000-4000-8000-000000000001','C','2001-01-01T00:00:00Z');",
	"CREATE TABLE jobs (id INTEGER PRIMARY KEY, client INTEGER NOT NULL REFERENCES clients, "
	"uuid TEXT NOT NULL UNIQUE, title TEXT NOT NULL CHECK (title <> ''), changed TEXT NOT NULL "
	"DEFAULT (strftime('%Y-%m-%dT%H:%M:%SZ', 'now')), UNIQUE (client, title)) STRICT;",
	"INSERT INTO jobs "
	"VALUES(1,1,'00000000-0000-4000-8000-000000000002','J','2001-01-01T00:00:00Z');",
	"CREATE TABLE rule_sets (name TEXT PRIMARY KEY, place TEXT NOT NULL, date TEXT NOT NULL) "
	"STRICT, WITHOUT ROWID;",
	"INSERT INTO rule_sets VALUES('none','','');",
	"CREATE TABLE rules (rule_set TEXT NOT NULL REFERENCES rule_sets, position INTEGER NOT "
	"NULL, key TEXT NOT NULL, number INTEGER NOT NULL, unit TEXT NOT NULL, source TEXT NOT "
	"NULL, PRIMARY KEY (rule_set, position), UNIQUE (rule_set, key)) STRICT, WITHOUT ROWID;",
	"CREATE TABLE variants (id INTEGER PRIMARY KEY, job INTEGER NOT NULL REFERENCES jobs, uuid "
	"TEXT NOT NULL UNIQUE, name TEXT NOT NULL CHECK (name <> ''), rule_set TEXT NOT NULL "
	"REFERENCES rule_sets, changed TEXT NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%SZ', "
	"'now')), UNIQUE (job, name)) STRICT;",
	"INSERT INTO variants "
	"VALUES(1,1,'00000000-0000-4000-8000-000000000003','A','none','2001-01-01T00:00:00Z');",
	"CREATE TABLE rings (variant INTEGER NOT NULL REFERENCES variants, position INTEGER NOT "
	"NULL, closed INTEGER NOT NULL CHECK (closed IN (0, 1)), PRIMARY KEY (variant, position)) "
	"STRICT, WITHOUT ROWID;",
	"INSERT INTO rings VALUES(1,0,1);",
	"CREATE TABLE nodes (variant INTEGER NOT NULL, ring INTEGER NOT NULL, position INTEGER NOT "
	"NULL, x_um INTEGER NOT NULL, y_um INTEGER NOT NULL, rise_um INTEGER NOT NULL, kind TEXT "
	"NOT NULL, PRIMARY KEY (variant, ring, position), FOREIGN KEY (variant, ring) REFERENCES "
	"rings (variant, position)) STRICT, WITHOUT ROWID;",
	"INSERT INTO nodes VALUES(1,0,0,0,0,0,'house wall');",
	"INSERT INTO nodes VALUES(1,0,1,6200000,0,250000,'kerb');",
	"INSERT INTO nodes VALUES(1,0,2,6300000,4150000,0,'steps');",
	"CREATE TABLE layings (variant INTEGER PRIMARY KEY REFERENCES variants, slab_name TEXT NOT "
	"NULL, length_um INTEGER NOT NULL, width_um INTEGER NOT NULL, thickness_um INTEGER NOT "
	"NULL, joint_um INTEGER NOT NULL, size TEXT NOT NULL, directional INTEGER NOT NULL, pack "
	"INTEGER NOT NULL, density_kg_m3 INTEGER NOT NULL, price_minor INTEGER, bond TEXT NOT "
	"NULL, offset REAL NOT NULL, rotation_udeg INTEGER NOT NULL, start_x_um INTEGER NOT NULL, "
	"start_y_um INTEGER NOT NULL, kerf_um INTEGER NOT NULL, fill_width_um INTEGER NOT NULL, "
	"sliver_width_um INTEGER, edges TEXT NOT NULL, breakage_ppm INTEGER NOT NULL, along TEXT "
	"NOT NULL DEFAULT 'x') STRICT;",
	"INSERT INTO layings "
	"VALUES(1,'',600000,300000,50000,3000,'coordinating',0,1,0,435,'mixed',0.5,0,0,0,3000,"
	"10000,75000,'finished',20000,'y');",
	"CREATE TABLE surfaces (variant INTEGER PRIMARY KEY REFERENCES variants, envelope TEXT NOT "
	"NULL, fixed_name TEXT, fixed_x_um INTEGER, fixed_y_um INTEGER, fixed_level_um INTEGER) "
	"STRICT;",
	"INSERT INTO surfaces VALUES(1,'max',NULL,NULL,NULL,NULL);",
	"CREATE TABLE planes (variant INTEGER NOT NULL REFERENCES surfaces, position INTEGER NOT "
	"NULL, x_um INTEGER NOT NULL, y_um INTEGER NOT NULL, level_um INTEGER NOT NULL, "
	"toward_udeg INTEGER NOT NULL, fall_um_per_m INTEGER NOT NULL, PRIMARY KEY (variant, "
	"position)) STRICT, WITHOUT ROWID;",
	"INSERT INTO planes VALUES(1,0,0,0,0,90000000,15000);",
	"CREATE TABLE grounds (variant INTEGER PRIMARY KEY REFERENCES variants, bedding_um INTEGER "
	"NOT NULL, sub_base_um INTEGER NOT NULL, benchmark_um INTEGER, backsight_um INTEGER) "
	"STRICT;",
	"INSERT INTO grounds VALUES(1,40000,100000,NULL,NULL);",
	"CREATE TABLE edgings (variant INTEGER NOT NULL REFERENCES variants, kind TEXT NOT NULL, "
	"name TEXT NOT NULL, unit_um INTEGER NOT NULL, joint_um INTEGER NOT NULL, PRIMARY KEY "
	"(variant, kind)) STRICT, WITHOUT ROWID;",
	"INSERT INTO edgings VALUES(1,'existing paving','',0,0);",
	"INSERT INTO edgings VALUES(1,'haunch','',0,0);",
	"INSERT INTO edgings VALUES(1,'house wall','',0,0);",
	"INSERT INTO edgings VALUES(1,'kerb','',0,0);",
	"INSERT INTO edgings VALUES(1,'open','',0,0);",
	"INSERT INTO edgings VALUES(1,'planter','',0,0);",
	"INSERT INTO edgings VALUES(1,'steps','',0,0);",
	"CREATE TABLE edits (variant INTEGER NOT NULL REFERENCES variants, seq INTEGER NOT NULL, "
	"label TEXT NOT NULL, forward TEXT NOT NULL, inverse TEXT NOT NULL, undone INTEGER NOT "
	"NULL DEFAULT 0 CHECK (undone IN (0, 1)), made TEXT NOT NULL DEFAULT "
	"(strftime('%Y-%m-%dT%H:%M:%SZ', 'now')), PRIMARY KEY (variant, seq)) STRICT, WITHOUT "
	"ROWID;",
	"INSERT INTO edits VALUES(1,1,'move corner 3','{ \"type\": \"node set\", \"ring\": 0, "
	"\"at\": 2, \"node\": { \"x\": 6300, \"y\": 4150, \"kind\": \"steps\" } }','{ \"type\": "
	"\"node set\", \"ring\": 0, \"at\": 2, \"node\": { \"x\": 6200, \"y\": 4150 } "
	"}',0,'2001-01-01T00:00:00Z');",
	"CREATE TABLE catalogue_slabs (position INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, "
	"length_um INTEGER NOT NULL, width_um INTEGER NOT NULL, thickness_um INTEGER NOT NULL, "
	"joint_um INTEGER NOT NULL, size TEXT NOT NULL, directional INTEGER NOT NULL, pack INTEGER "
	"NOT NULL, density_kg_m3 INTEGER NOT NULL, price_minor INTEGER) STRICT;",
	"INSERT INTO catalogue_slabs "
	"VALUES(1,'Flag',600000,600000,50000,3000,'work',0,1,2300,NULL);",
	"CREATE TABLE catalogue_edgings (position INTEGER PRIMARY KEY, kind TEXT NOT NULL, name "
	"TEXT NOT NULL, unit_um INTEGER NOT NULL, joint_um INTEGER NOT NULL, UNIQUE (kind, name)) "
	"STRICT;",
	"CREATE TABLE view (variant INTEGER NOT NULL, key TEXT NOT NULL, text TEXT NOT NULL, "
	"PRIMARY KEY (variant, key)) STRICT, WITHOUT ROWID;",
	"CREATE TABLE repeats (id INTEGER PRIMARY KEY, variant INTEGER UNIQUE REFERENCES variants, "
	"name TEXT NOT NULL, step_x_um INTEGER NOT NULL CHECK (step_x_um > 0), step_y_um INTEGER "
	"NOT NULL CHECK (step_y_um > 0), slant_um INTEGER NOT NULL) STRICT;",
	"INSERT INTO repeats VALUES(1,1,'Wheel',1500000,300000,600000);",
	"INSERT INTO repeats VALUES(2,NULL,'Row',600000,300000,0);",
	"CREATE TABLE repeat_slabs (repeat INTEGER NOT NULL REFERENCES repeats ON DELETE CASCADE, "
	"position INTEGER NOT NULL, x_um INTEGER NOT NULL, y_um INTEGER NOT NULL, length_um "
	"INTEGER NOT NULL CHECK (length_um > 0), width_um INTEGER NOT NULL CHECK (width_um > 0), "
	"PRIMARY KEY (repeat, position)) STRICT, WITHOUT ROWID;",
	"INSERT INTO repeat_slabs VALUES(1,0,0,0,600000,600000);",
	"INSERT INTO repeat_slabs VALUES(1,1,-900000,0,300000,300000);",
	"INSERT INTO repeat_slabs VALUES(2,0,0,0,600000,300000);",
	"CREATE TABLE mixes (id INTEGER PRIMARY KEY, variant INTEGER UNIQUE REFERENCES variants, "
	"name TEXT NOT NULL, seed INTEGER NOT NULL) STRICT;",
	"INSERT INTO mixes VALUES(1,1,'',41);",
	"INSERT INTO mixes VALUES(2,NULL,'Pack',7);",
	"CREATE TABLE mix_sizes (mix INTEGER NOT NULL REFERENCES mixes ON DELETE CASCADE, position "
	"INTEGER NOT NULL, length_um INTEGER NOT NULL CHECK (length_um > 0), width_um INTEGER NOT "
	"NULL CHECK (width_um > 0), share INTEGER NOT NULL CHECK (share > 0), PRIMARY KEY (mix, "
	"position)) STRICT, WITHOUT ROWID;",
	"INSERT INTO mix_sizes VALUES(1,0,600000,300000,3);",
	"INSERT INTO mix_sizes VALUES(2,0,450000,300000,2);",
	"CREATE TABLE edge_joints (variant INTEGER NOT NULL REFERENCES variants, kind TEXT NOT "
	"NULL, joint_um INTEGER NOT NULL, PRIMARY KEY (variant, kind)) STRICT, WITHOUT ROWID;",
	"INSERT INTO edge_joints VALUES(1,'house wall',10000);",
	"CREATE UNIQUE INDEX catalogue_repeats ON repeats (name) WHERE variant IS NULL;",
	"CREATE UNIQUE INDEX catalogue_mixes ON mixes (name) WHERE variant IS NULL;",
	"PRAGMA application_id = 0x534C4142; PRAGMA user_version = 3;",
};

const char version_3_document[] =
        "{\"format\": \"slabwright-plan\", \"version\": 1, \"client\": {\"name\": \"C\", \"uuid\": "
        "\"00000000-0000-4000-8000-000000000001\"}, \"job\": {\"title\": \"J\", \"uuid\": "
        "\"00000000-0000-4000-8000-000000000002\"}, \"variants\": [{\"name\": \"A\", \"uuid\": "
        "\"00000000-0000-4000-8000-000000000003\", \"outline\": {\"nodes\": [{\"x\": 0, \"y\": 0, "
        "\"kind\": \"house wall\"}, {\"x\": 6200, \"y\": 0, \"kind\": \"kerb\", \"rise\": 250}, "
        "{\"x\": 6300, \"y\": 4150, \"kind\": \"steps\"}]}, \"laying\": {\"slab\": {\"length\": "
        "600, \"width\": 300, \"thickness\": 50, \"joint\": 3, \"size\": \"coordinating\", "
        "\"directional\": false, \"price\": 4.35}, \"bond\": \"mixed\", \"offset\": 0.5, "
        "\"along\": \"y\", \"rotation\": 0, \"start\": {\"x\": 0, \"y\": 0}, \"kerf\": 3, "
        "\"fill_width\": 10, \"sliver_width\": 75, \"edges\": \"finished\", \"repeat\": {\"name\": "
        "\"Wheel\", \"step_x\": 1500, \"step_y\": 300, \"slant\": 600, \"slabs\": [{\"x\": 0, "
        "\"y\": 0, \"length\": 600, \"width\": 600}, {\"x\": -900, \"y\": 0, \"length\": 300, "
        "\"width\": 300}]}, \"mix\": {\"seed\": 41, \"sizes\": [{\"length\": 600, \"width\": 300, "
        "\"share\": 3}]}, \"edge_joints\": {\"house wall\": 10}}, \"surface\": {\"envelope\": "
        "\"max\", \"planes\": [{\"x\": 0, \"y\": 0, \"level\": 0, \"toward\": 90, \"fall\": "
        "15}]}}]}";

void version_3_make(const char *path)
{
	file_of_statements(path, statements, sizeof statements / sizeof *statements);
}
