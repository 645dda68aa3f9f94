# SPDX-License-Identifier: GPL-3.0-or-later
# What analysers wrote, as lines "TOOL PATH [CHECK] MESSAGE" without numbers of lines, which change
# with every edit. tool: its name; source: the folder of the sources with a slash.

function shorten(path)
{
    if (index(path, source) == 1) {
        path = substr(path, length(source) + 1)
    }
    sub(/^(\.\.?\/)+(src\/)?/, "", path)
    sub(/:[0-9]+(:[0-9]+)?:?$/, "", path)
    return path
}

function put(path, check, message)
{
    gsub(source, "", message)
    gsub(/‘|’/, "'", message)
    sub(/ \(BuildId.*/, "", message)
    sub(/[ \t]+$/, "", message)
    print tool " " shorten(path) " [" check "] " message
}

# A frame of valgrind in a file of the sources: "... : name (core/base/text.c:12)"
function frame_path(line)
{
    if (match(line, /\((core|plugins|bindings|tests|include)\/[^ ]*:[0-9]+\)/)) {
        return substr(line, RSTART + 1, RLENGTH - 2)
    }
    return ""
}

# Of other programs, and of the compiler about a whole build.
/^run .*: exit status [0-9]+$/ {
    sub(/^run /, "")
    print tool " " $1 " [status] " substr($0, length($1) + 2)
    next
}

tool == "cppcheck" && /^[^ ]+: \[[A-Za-z0-9_]+\] / {
    check = $2
    gsub(/[][]/, "", check)
    path = $1
    sub(/:$/, "", path)
    put(path, check, substr($0, length($1) + length($2) + 3))
    next
}

/^[^ ]+:[0-9]+:[0-9]+: (warning|error): .*\[[^]]+\]$/ && tool ~ /^(clang-tidy|fanalyzer)$/ {
    match($0, /\[[^]]+\]$/)
    check = substr($0, RSTART + 1, RLENGTH - 2)
    sub(/^-W(analyzer-)?/, "", check)
    message = substr($0, 1, RSTART - 1)
    sub(/^[^ ]+ (warning|error): /, "", message)
    sub(/ \[CWE-[0-9]+\]/, "", message)
    put($1, check, message)
    next
}

/: runtime error: / {
    path = $1
    message = $0
    sub(/^.*: runtime error: /, "", message)
    gsub(/0x[0-9a-f]+|-?[0-9]+(\.[0-9]+)?(e[-+]?[0-9]+)?/, "N", message)
    put(path, "undefined", message)
    next
}

# SUMMARY: ThreadSanitizer: data race core/cut/batch.c:28:32 in run_chunk
/^SUMMARY: [A-Za-z]+Sanitizer: / {
    line = $0
    sub(/^SUMMARY: [A-Za-z]+Sanitizer: /, "", line)
    if (line ~ /leaked in/) {
        put("-", "leak", "memory")
    } else if (line !~ /^undefined-behavior/ && match(line, / [^ ]+:[0-9]+(:[0-9]+)?( in |$)/)) {
        path = substr(line, RSTART + 1, RLENGTH - 1)
        sub(/ in $/, "", path)
        put(path, substr(line, 1, RSTART - 1), substr(line, RSTART + RLENGTH - 3))
    } else if (line !~ /^undefined-behavior/) {
        put("-", "other", line)
    }
    next
}

# ==123== Invalid read of size 8
# ==123==    at 0x1234: name (core/base/text.c:12)
/^==[0-9]+== *$/ {
    end_error()
    next
}
/^==[0-9]+== [A-Z0-9]/ {
    line = $0
    sub(/^==[0-9]+== /, "", line)
    if (about != "" && !framed) {
        next # goes on about the same error
    }
    end_error()
    if (line ~ /^(Thread #|This conflicts|Locks? |Required order|followed by|Address|Block)/) {
        next # belongs to the error before or after it
    }
    about = line
    gsub(/0x[0-9A-Fa-f]+|#?[0-9][0-9,]*/, "N", about)
    sub(/ at N by thread N/, "", about)
    place = inner = ""
    framed = frames = 0
    next
}
/^==[0-9]+==    (at|by) / {
    framed = 1
    name = $0
    sub(/^==[0-9]+== *(at|by) 0x[0-9A-F]+: /, "", name)
    sub(/ \(.*/, "", name)
    if (place == "" && (frame_path($0) != "" || frames < 2)) {
        place = frame_path($0)
        inner = inner (frames++ > 0 ? " of " : "in ") name
    }
    next
}

function end_error()
{
    if (about != "" && framed) {
        put(place == "" ? "-" : place, about, inner)
    }
    about = ""
    framed = 0
}

END { end_error() }
