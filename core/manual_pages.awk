# SPDX-License-Identifier: GPL-3.0-or-later
# Manual pages of the library, section 3, one for each group of the header coolbite/coolbite.h.
#
#   awk -v folder=core/man -v version=1.2.3 -f manual_pages.awk coolbite.h
#
# A group begins with a comment `/* ---- title ---- */`. Of each declaration the comment before it is
# the text, the declaration itself is shown as it is in the header. A group whose title has no page
# below is left out; tests/cli/test_manual.sh finds the functions that are on no page.

BEGIN {
    # title in the header: name of its page
    page["status and errors"] = "status"
    page["quantities: numbers with units"] = "quantities"
    page["one pass: flat numbers in"] = "inputs"
    page["one pass: flat numbers out"] = "results"
    page["memory"] = "memory"
    page["many passes at once"] = "batch"
    page["how a result is shown"] = "styles"
    page["what the shop has"] = "library"
    page["threads in a material"] = "threads"
    page["fluids on a material"] = "fluids"
    page["a judged cut"] = "answers"
    page["cases: many requests as lines of text"] = "cases"
    page["the shop's own set-up"] = "shop"
    page["which settings to enter"] = "choices"
    page["what went wrong"] = "diagnosis"
    page["the operating window: where each limit lies"] = "window"
    page["a whole job"] = "jobs"
    page["what was measured"] = "records"
    page["looking things up"] = "names"
    out = ""
}

# text as roff: no character is a request, an escape or a hyphen by accident
function roff(text) {
    gsub(/\\/, "\\e", text)
    gsub(/-/, "\\-", text)
    if (text ~ /^[.']/) text = "\\&" text
    return text
}

function put(text) { if (out != "") print text > out }

function end_page() {
    if (out == "") return
    put(".SH SEE ALSO")
    put(".BR libcoolbite (3)")
    close(out)
    out = ""
}

function begin_page(title) {
    end_page()
    if (!(title in page)) return
    out = folder "/libcoolbite-" page[title] ".3"
    put(".\\\" SPDX-License-Identifier: GPL-3.0-or-later")
    put(".\\\" made from coolbite/coolbite.h")
    put(".TH libcoolbite\\-" page[title] " 3 \"\" \"Coolbite " version "\" \"Coolbite manual\"")
    put(".SH NAME")
    put("libcoolbite\\-" page[title] " \\- " roff(title))
    put(".SH SYNOPSIS")
    put(".nf")
    put(".B #include <coolbite/coolbite.h>")
    put(".fi")
    put(".PP")
    put("Units, ownership, errors and threads: see")
    put(".BR libcoolbite (3).")
    put(".SH DESCRIPTION")
}

# what a declaration declares
function name_of(code,   text) {
    text = code
    if (text ~ /^#define/) { sub(/^#define[ \t]+/, "", text); sub(/[^A-Za-z0-9_].*/, "", text); return text }
    gsub(/\/\*[^*]*\*+([^\/*][^*]*\*+)*\//, "", text)
    gsub(/\n/, " ", text)
    if (match(text, /bite_[a-z0-9_]+\(/) && text !~ /^typedef/) return substr(text, RSTART, RLENGTH - 1)
    sub(/;[ \t]*$/, "", text)
    if (text ~ /^typedef.*\(\*bite_[a-z0-9_]+\)/) {
        match(text, /\(\*bite_[a-z0-9_]+\)/)
        return substr(text, RSTART + 2, RLENGTH - 3)
    }
    sub(/[ \t]+$/, "", text)
    sub(/^.*[^A-Za-z0-9_]/, "", text)
    return text
}

function end_declaration(   count, lines, i) {
    if (out != "" && code != "") {
        if (document != "" || code !~ /^typedef struct [a-z_]+ [a-z_]+;/) put(".SS " name_of(code))
        put(".EX")
        count = split(code, lines, "\n")
        for (i = 1; i <= count; i++) {
            if (i > 1 && substr(lines[i], 1, cut) ~ /^ *$/) lines[i] = substr(lines[i], cut + 1)
            put(roff(lines[i]))
        }
        put(".EE")
        if (document != "") {
            put(".PP")
            count = split(document, lines, "\n")
            for (i = 1; i <= count; i++) put(lines[i] == "" ? ".PP" : roff(lines[i]))
        }
    }
    code = ""
    document = ""
    depth = 0
    cut = 0
    ended = 0
}

/^\/\* ---- / {
    title = $0
    sub(/^\/\* -+ /, "", title)
    sub(/ -+( \*\/)?$/, "", title)
    in_plain = $0 !~ /\*\/[ \t]*$/
    begin_page(title)
    next
}
# the rest of a comment that is not for the manual
in_plain { if ($0 ~ /\*\//) in_plain = 0; next }
/^\/\*([^*]|$)/ && code == "" { in_plain = $0 !~ /\*\//; next }

/^\/\*\*/ && code == "" { in_document = 1; document = "" }
in_document {
    line = $0
    ends = line ~ /\*\//
    sub(/^[ \t]*\/?\*+[ \t]?/, "", line)
    sub(/[ \t]*\*+\/.*$/, "", line)
    if (line == "/") line = ""
    sub(/^[ \t]+/, "", line)
    if (line != "" || document != "") document = document (document == "" ? "" : "\n") line
    if (ends) { in_document = 0; sub(/\n+$/, "", document) }
    next
}
/^[ \t]*$/ && code == "" { next }
/^#(if|ifdef|ifndef|endif|else|include|undef)/ { next }
/^(extern "C"|})/ && code == "" { next }
{
    if (code == "") cut = length($0) - length(without_markers($0))
    code = code (code == "" ? "" : "\n") without_markers($0)
    bare = without_comments($0)
    if (code ~ /^#define/) { if ($0 !~ /\\$/) end_declaration(); next }
    depth += gsub(/[{(]/, "&", bare) - gsub(/[})]/, "&", bare)
    sub(/[ \t]+$/, "", bare)
    if (bare ~ /[;}]$/) ended = 1
    else if (bare != "") ended = 0
    if (depth == 0 && ended && !in_comment) end_declaration()
}

# a line of a declaration as the page shows it
function without_markers(line) {
    sub(/^(BITE_CHECKED )?(BITE_API )?/, "", line)
    gsub(/\/\*\*</, "/*", line)
    return line
}

# the code in a line; in_comment: a comment goes on in the next one
function without_comments(line,   at, code_in) {
    code_in = ""
    while (line != "") {
        at = index(line, in_comment ? "*/" : "/*")
        if (!in_comment) code_in = code_in (at == 0 ? line : substr(line, 1, at - 1))
        if (at == 0) return code_in
        line = substr(line, at + 2)
        in_comment = !in_comment
    }
    return code_in
}

END { end_page() }
