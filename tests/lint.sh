#!/bin/sh
# lint.sh - what the compilers and checkers say, and the one-way rule of the rooms.
set -eu
cd "$(dirname "$0")/.."
fail=0
say() { echo "lint: $*"; fail=1; }

warn='-std=c17 -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror'
flags="-Iinclude -Itests -D_GNU_SOURCE -DSHARE_DIR=\"/\" $(pkg-config --cflags ncursesw sqlite3 check vterm pangocairo cairo)"
sources=$(find src tests -name '*.c' | sort)
# shellcheck disable=SC2086
printf '%s\n' $sources | xargs -P 4 -n 8 clang $warn $flags -fsyntax-only || say "clang warns"

# shellcheck disable=SC2046
clang-format --dry-run -Werror $(find src include tests -name '*.[ch]') || say "clang-format would change something (make format)"

# shellcheck disable=SC2086
cppcheck --quiet --std=c11 --enable=warning,performance,portability --inline-suppr --error-exitcode=1 -j 4 \
	--suppress=missingIncludeSystem -Iinclude -D_GNU_SOURCE src || say "cppcheck has remarks"

for page in man/*.[0-9]; do
	mandoc -T lint -W warning "$page" || say "mandoc has remarks on $page"
done

# Rooms: who may include whose headers, ncurses, and SQL.
only() { # only PATTERN WHAT FOLDERS...
	pattern=$1 what=$2
	shift 2
	hits=$(grep -rlE "$pattern" src include | grep -vE "^($(printf '%s|' "$@")nothing)" || true)
	[ -z "$hits" ] || say "$what in $hits"
}
only '#include <(ncurses|curses|ncursesw/)' 'ncurses' src/planner/
only '#include <(cairo|pango)' 'drawing on paper' src/sheet/
only 'sqlite3' 'SQLite' src/store/
only '#include "slabwright/store.h"' 'the store' src/store/ src/calc/takeoff_store.c src/planner/ src/cli/ src/main.c include/slabwright/planner.h
only '#include "slabwright/(geom|mesh).h"' 'geometry' src/geom/ src/calc/ src/sheet/ src/planner/ src/cli/ include/slabwright/
only '#include "slabwright/(lay|cutplan|surface|surface_plane|drainage|runoff|levelling|setout|asbuilt|earth|edging|kerb|planter|wall|steps|handling|takeoff|section|startline|materials|labour|price|schedule).h"' 'the computation' src/calc/ src/sheet/ src/planner/ src/cli/ include/slabwright/
only '#include "slabwright/(sheet|drawing|compare).h"' 'sheets' src/sheet/ src/planner/ src/cli/ include/slabwright/compare.h
only '#include "slabwright/(planner|cli).h"' 'the planner or commands' src/planner/ src/cli/ src/main.c
exit $fail
