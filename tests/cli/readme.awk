# SPDX-License-Identifier: GPL-3.0-or-later
# The README with every answer it shows made anew: awk -v program=PATH -v grades=COMMAND -f readme.awk README.md. A block that opens with "$ coolbite ..."
# (which may go on over lines that end in a backslash) is followed by what the program prints. The two lines that count the figures of the
# tables by grade are what -v grades=COMMAND prints.
/^- Of [0-9]+ figures of the tables / {
    while ((grades | getline answer) > 0)
        print answer
    close(grades)
    getline
    next
}
{ print }
/^\$ coolbite / { command = program; sub(/^\$ coolbite/, ""); more = 1 }
more {
    more = sub(/\\$/, "")
    command = command " " $0
    if (!more) {
        while ((command | getline answer) > 0)
            print answer
        close(command)
        while ((getline) > 0 && $0 !~ /^```/)
            ;
        print
    }
}
