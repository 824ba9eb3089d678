#!/bin/sh
# run.sh LOGS PROGRAM... - runs each test program, as many at a time as there are processors, shows a
# line for it when it has ended, and its log where it failed.
if [ "$1" = --one ]; then
	logs=$2
	name=$(basename "$3")
	start=$(date +%s)
	if "$3" >"$logs/$name.log" 2>&1; then
		printf '  ok    %-24s %3ds  %s\n' "$name" $(($(date +%s) - start)) "$(grep -E '^[0-9]+%' "$logs/$name.log" | tail -1)"
		exit 0
	fi
	printf '  FAIL  %s\n%s\n' "$name" "$(cat "$logs/$name.log")"
	exit 1
fi
logs=$1
shift
mkdir -p "$logs"
printf '%s\n' "$@" | xargs -n 1 -P "$(getconf _NPROCESSORS_ONLN)" sh "$0" --one "$logs"
