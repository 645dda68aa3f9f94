# SPDX-License-Identifier: GPL-3.0-or-later
# Prints the README with new answers of the program: awk -v program=PATH -v grades=COMMAND -f
# readme.awk README.md. In a block that starts with "$ coolbite ..." (continued over lines that end
# in a backslash), the rest is replaced by the output of that command. The two lines that count the
# figures of the tables by grade are replaced by the output of `grades`.
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
