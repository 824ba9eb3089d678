# Completes slabwright's commands, options and paths in fish. What there is comes from the program
# itself: `slabwright --help` and `slabwright list`.

function __slabwright_commands
    slabwright --help 2>/dev/null | sed -n '/one of these/,/^Options/{/one of these/d;s/^  \([a-z][a-z]*\) [A-Z]* *\(.*\)/\1\t\2/p;}'
end

function __slabwright_options
    slabwright --help 2>/dev/null | sed -n '/^Options/,/^PATH/s/^  \(--[a-z-]*\) [A-Za-z0-9:]* *\(.*\)/\1\t\2/p'
end

complete -c slabwright -f
complete -c slabwright -n __fish_use_subcommand -a '(__slabwright_commands)'
complete -c slabwright -n 'not __fish_use_subcommand; and not __fish_seen_subcommand_from import restore backup' -a '(slabwright list 2>/dev/null)'
complete -c slabwright -n '__fish_seen_subcommand_from import restore backup' -F
complete -c slabwright -n 'string match -q -- "-*" (commandline -ct)' -a '(__slabwright_options)'
complete -c slabwright -l as -x -a 'text csv json ics'
complete -c slabwright -l paper -x -a 'A4 A3 Letter'
complete -c slabwright -l store -r -F
complete -c slabwright -l to -r -F
