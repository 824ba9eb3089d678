# Completes slabwright's commands, options and paths in bash. What there is comes from the program
# itself: `slabwright --help` and `slabwright list`.

_slabwright_words() { # the first words of the lines of help between two headings
	slabwright --help 2>/dev/null | sed -n "/$1/,/$2/{/$1/d;s/^  \\(--\\)\\{0,1\\}\\([a-z-]*\\) .*/\\1\\2/p}"
}

_slabwright_store() { # --store as it stands on the line
	local i
	for ((i = 1; i < COMP_CWORD; i++)); do
		if [[ ${COMP_WORDS[i]} == --store ]]; then
			printf '%s' "${COMP_WORDS[i + 1]}"
			return
		fi
	done
}

_slabwright_paths() {
	local store path
	store=$(_slabwright_store)
	while IFS= read -r path; do
		[[ $path == "$1"* ]] && COMPREPLY+=("$(printf '%q' "$path")")
	done < <(slabwright ${store:+--store "$store"} list 2>/dev/null)
}

_slabwright() {
	local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD - 1]} command= i
	COMPREPLY=()
	case $prev in
	--as) mapfile -t COMPREPLY < <(compgen -W 'text csv json ics' -- "$cur") && return ;;
	--paper) mapfile -t COMPREPLY < <(compgen -W 'A4 A3 Letter' -- "$cur") && return ;;
	--store | --to) mapfile -t COMPREPLY < <(compgen -f -- "$cur") && return ;;
	esac
	for ((i = 1; i < COMP_CWORD; i++)); do
		case ${COMP_WORDS[i]} in
		--store | --as | --to | --only | --paper | --scale | --date) ((i++)) ;;
		-*) ;;
		*) command=${command:-${COMP_WORDS[i]}} ;;
		esac
	done
	if [[ $cur == -* ]]; then
		mapfile -t COMPREPLY < <(compgen -W "$(_slabwright_words '^Options' '^PATH')" -- "$cur")
	elif [[ -z $command ]]; then
		mapfile -t COMPREPLY < <(compgen -W "$(_slabwright_words 'one of these' '^Options')" -- "$cur")
	elif [[ $command == import || $command == restore || $command == backup ]]; then
		mapfile -t COMPREPLY < <(compgen -f -- "$cur")
	else
		cur=${cur//\\/}
		cur=${cur#[\"\']}
		_slabwright_paths "$cur"
	fi
}

complete -F _slabwright slabwright
