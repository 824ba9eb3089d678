# Slabwright. `make help` lists what there is.

CC ?= cc
PREFIX ?= /usr/local
BUILD ?= build
CFLAGS ?= -O2 -g
WARN = -std=c17 -Wall -Wextra -Wpedantic -Wconversion -Wshadow
ifdef WERROR
WARN += -Werror
endif
ifdef SAN
SANFLAGS = -fsanitize=address,undefined -fno-omit-frame-pointer -fno-sanitize-recover=undefined
endif

# One short line a step; V=1 shows the commands.
ifdef V
say = @:
Q =
else
say = @printf '  %-4s %s\n'
Q = @
endif

OUT = $(BUILD)$(if $(SAN),/san)
PKG = ncursesw sqlite3 pangocairo cairo
TESTPKG = check vterm sqlite3
CPPFLAGS_ALL = -Iinclude -D_GNU_SOURCE -DSHARE_DIR='"$(PREFIX)/share/slabwright"' $(CPPFLAGS)
CFLAGS_ALL = $(WARN) $(CFLAGS) $(SANFLAGS)
PKG_CFLAGS = $(shell pkg-config --cflags $(PKG))
PKG_LIBS = $(shell pkg-config --libs $(PKG)) -lm
TEST_CFLAGS = $(shell pkg-config --cflags $(TESTPKG)) -Itests
TEST_LIBS = $(shell pkg-config --libs $(TESTPKG)) -lgeos_c -lglpk -lutil -lm

LIB_SRC = $(wildcard src/base/*.c src/geom/*.c src/store/*.c src/calc/*.c)
APP_SRC = $(wildcard src/sheet/*.c src/planner/*.c src/cli/*.c)
PURE_SRC = $(wildcard src/base/*.c src/geom/*.c) $(filter-out src/calc/takeoff_store.c,$(wildcard src/calc/*.c))
LIB_OBJ = $(LIB_SRC:%.c=$(OUT)/%.o)
APP_OBJ = $(APP_SRC:%.c=$(OUT)/%.o)
PURE_OBJ = $(PURE_SRC:%.c=$(OUT)/%.o)
LIB = $(OUT)/libslabwright.a
PROGRAM = $(OUT)/slabwright

# Every tests/ROOM/test_*.c is a program of its own; every other .c there is shared by them.
TEST_SRC = $(wildcard tests/*/test_*.c)
TEST_SHARED_SRC = $(filter-out $(TEST_SRC) $(wildcard tests/bench/*.c tests/fuzz/*.c tests/pure/*.c),$(wildcard tests/*/*.c tests/*.c))
TESTS = $(TEST_SRC:%.c=$(OUT)/%)
TEST_SHARED_OBJ = $(TEST_SHARED_SRC:%.c=$(OUT)/%.o)
BENCHES = $(patsubst %.c,$(OUT)/%,$(wildcard tests/bench/bench_*.c))

SOURCES = $(wildcard src/*.c src/*/*.c include/slabwright/*.h src/*/*.h tests/*/*.c tests/*/*.h tests/*.h)

.PHONY: help all run check test sanitize lint bench install uninstall dist clean deps deps-check format

help: ## this list
	@awk -F':.*## ' '/^[a-z-]+:.*## /{printf "  make %-10s %s\n", $$1, $$2}' $(firstword $(MAKEFILE_LIST))

all: deps ## build the program and libslabwright.a
	@$(MAKE) --no-print-directory $(PROGRAM)

run: all ## open the planner on the demo job (without a terminal: print its take-off)
	@$(PROGRAM) demo

check: deps-check ## build everything, run all tests, plain and under ASan + UBSan, and the linters
	@$(MAKE) --no-print-directory lint
	@$(MAKE) --no-print-directory WERROR=1 test
	@$(MAKE) --no-print-directory WERROR=1 sanitize
	@echo "make check: all passed"

test: $(PROGRAM) $(TESTS) $(OUT)/pure ## run all tests once
	@LSAN_OPTIONS=suppressions=$(abspath tests/leaks.supp):print_suppressions=0 \
		SLABWRIGHT=$(abspath $(PROGRAM)) SHARE=$(abspath share/slabwright) SLABWRIGHT_SHARE=$(abspath share/slabwright) sh tests/run.sh $(OUT)/logs $(TESTS)

sanitize: deps-check ## run all tests under the address and undefined-behaviour sanitizers
	@$(MAKE) --no-print-directory SAN=1 CFLAGS='-O1 -g' test

lint: deps-check ## clang's warnings, clang-format, cppcheck, mandoc and the one-way rule
	@sh tests/lint.sh

bench: deps-check ## measure: counting against GEOS, growth, key to screen
	@$(MAKE) --no-print-directory benches

.PHONY: benches
benches: $(PROGRAM) $(BENCHES)
	@for b in $(BENCHES); do SLABWRIGHT=$(abspath $(PROGRAM)) SHARE=$(abspath share/slabwright) SLABWRIGHT_SHARE=$(abspath share/slabwright) $$b || exit 1; done

install: all ## install under PREFIX (and DESTDIR)
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(PREFIX)/share/slabwright \
		$(DESTDIR)$(PREFIX)/share/man/man1 $(DESTDIR)$(PREFIX)/share/man/man5 \
		$(DESTDIR)$(PREFIX)/share/bash-completion/completions \
		$(DESTDIR)$(PREFIX)/share/zsh/site-functions \
		$(DESTDIR)$(PREFIX)/share/fish/vendor_completions.d
	install -m 755 $(PROGRAM) $(DESTDIR)$(PREFIX)/bin/slabwright
	install -m 644 share/slabwright/* $(DESTDIR)$(PREFIX)/share/slabwright
	install -m 644 share/completions/slabwright.bash \
		$(DESTDIR)$(PREFIX)/share/bash-completion/completions/slabwright
	install -m 644 share/completions/_slabwright $(DESTDIR)$(PREFIX)/share/zsh/site-functions
	install -m 644 share/completions/slabwright.fish \
		$(DESTDIR)$(PREFIX)/share/fish/vendor_completions.d
	install -m 644 man/slabwright.1 $(DESTDIR)$(PREFIX)/share/man/man1
	install -m 644 man/slabwright.5 $(DESTDIR)$(PREFIX)/share/man/man5

uninstall: ## remove what install put there
	rm -f $(DESTDIR)$(PREFIX)/bin/slabwright $(DESTDIR)$(PREFIX)/share/man/man1/slabwright.1 \
		$(DESTDIR)$(PREFIX)/share/man/man5/slabwright.5 \
		$(DESTDIR)$(PREFIX)/share/bash-completion/completions/slabwright \
		$(DESTDIR)$(PREFIX)/share/zsh/site-functions/_slabwright \
		$(DESTDIR)$(PREFIX)/share/fish/vendor_completions.d/slabwright.fish
	rm -rf $(DESTDIR)$(PREFIX)/share/slabwright

VERSION = $(shell sed -n 's/.*PROGRAM_VERSION "\(.*\)"/\1/p' src/cli/command.h)

dist: ## a source archive of what is committed, under BUILD
	@mkdir -p $(BUILD)
	git archive --format=tar.gz --prefix=slabwright-$(VERSION)/ -o $(BUILD)/slabwright-$(VERSION).tar.gz HEAD

clean: ## remove what was built
	rm -rf $(BUILD)

format: ## lay the source out as .clang-format says
	clang-format -i $(SOURCES)

deps:
	@.ci/deps run
deps-check:
	@.ci/deps check

$(LIB): $(LIB_OBJ)
	$(say) AR $@
	@rm -f $@.new
	$(Q)ar rcs $@.new $^ && mv $@.new $@

$(PROGRAM): $(OUT)/src/main.o $(APP_OBJ) $(LIB)
	$(say) LINK $@
	$(Q)$(CC) $(CFLAGS_ALL) $(LDFLAGS) -o $@ $^ $(PKG_LIBS)

# The computation must link without the store, a screen or a file: a stray call does not.
$(OUT)/pure: $(OUT)/tests/pure.o $(PURE_OBJ)
	$(say) LINK $@
	$(Q)$(CC) $(CFLAGS_ALL) $(LDFLAGS) -o $@ $^ -lm

$(OUT)/tests/pure.o: tests/pure/main.c
	$(say) CC $<
	@mkdir -p $(@D)
	$(Q)$(CC) $(CPPFLAGS_ALL) $(CFLAGS_ALL) -MMD -MP -c -o $@ $<

# Counts its own allocations.
$(OUT)/tests/bench/bench_count: LDFLAGS += -Wl,--wrap=malloc

# Lets any request to an arena fail.
$(OUT)/tests/faults/test_search_faults: LDFLAGS += -Wl,--wrap=arena_alloc,--wrap=arena_grow
# Makes allocations fail.
$(OUT)/tests/faults/test_startline_memory: LDFLAGS += -Wl,--wrap=malloc

# What tests share, and the rooms that are not in the library.
$(OUT)/libtests.a: $(TEST_SHARED_OBJ) $(APP_OBJ)
	$(say) AR $@
	@rm -f $@
	$(Q)ar rcs $@ $^

$(OUT)/tests/%: $(OUT)/tests/%.o $(OUT)/libtests.a $(LIB)
	$(say) LINK $@
	$(Q)$(CC) $(CFLAGS_ALL) $(LDFLAGS) -o $@ $^ $(TEST_LIBS) $(PKG_LIBS)

$(OUT)/tests/%.o: tests/%.c
	$(say) CC $<
	@mkdir -p $(@D)
	$(Q)$(CC) $(CPPFLAGS_ALL) $(TEST_CFLAGS) $(CFLAGS_ALL) -MMD -MP -c -o $@ $<

$(OUT)/%.o: %.c
	$(say) CC $<
	@mkdir -p $(@D)
	$(Q)$(CC) $(CPPFLAGS_ALL) $(PKG_CFLAGS) $(CFLAGS_ALL) -MMD -MP -c -o $@ $<

.SECONDARY:
-include $(wildcard $(OUT)/src/*.d $(OUT)/src/*/*.d $(OUT)/tests/*.d $(OUT)/tests/*/*.d)
