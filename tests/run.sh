#!/bin/sh
# run.sh LOGS PROGRAM... - runs each test program, shows a line for it, and its log where it failed.
logs=$1
shift
mkdir -p "$logs"
failed=0
for t in "$@"; do
	name=$(basename "$t")
	start=$(date +%s)
	if "$t" >"$logs/$name.log" 2>&1; then
		printf '  ok    %-24s %3ds  %s\n' "$name" $(($(date +%s) - start)) "$(grep -E '^[0-9]+%' "$logs/$name.log" | tail -1)"
	else
		failed=1
		printf '  FAIL  %s\n' "$name"
		cat "$logs/$name.log"
	fi
done
exit $failed
