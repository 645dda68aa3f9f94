# SPDX-License-Identifier: GPL-3.0-or-later
# A manual page of section 7 from the table of a material:
#
#   awk -v family=acrylic -v version=1.2.3 -f family_page.awk acrylic.ini >coolbite-acrylic.7

# text as roff: no character is a request, an escape or a hyphen by accident
function roff(text) {
    gsub(/\\/, "\\e", text)
    gsub(/-/, "\\-", text)
    if (text ~ /^[.']/) text = "\\&" text
    return text
}

# an argument of a macro, in quotes
function quoted(text) {
    text = roff(text)
    gsub(/"/, "\\(dq", text)
    return "\"" text "\""
}

function capital(text) { return toupper(substr(text, 1, 1)) substr(text, 2) }

# text that begins a paragraph and ends in a full stop
function sentence(text) {
    text = capital(text)
    return text ~ /[.!?]$/ ? text : text "."
}

BEGIN { sections = 0 }

/^[ \t]*(#|$)/ { next }

/^\[/ {
    section = $0
    gsub(/^\[|\][ \t]*$/, "", section)
    order[++sections] = section
    next
}

{
    at = index($0, "=")
    key = substr($0, 1, at - 1)
    value = substr($0, at + 1)
    gsub(/[ \t]+$/, "", key)
    gsub(/^[ \t]+|[ \t]+$/, "", value)
    if (value ~ /^".*"$/) value = substr(value, 2, length(value) - 2)
    keys[section, ++count[section]] = key
    values[section, key] = value
}

function write_grade(section,    i, key, name) {
    name = section
    sub(/^grade\./, "", name)
    print ".SS " quoted(family "/" name)
    if ((section, "summary") in values) print roff(sentence(values[section, "summary"]))
    if ((section, "also") in values) print "Also found as " roff(values[section, "also"]) "."
    if ((section, "near") in values)
        print "It stands for these, which are near it: " roff(values[section, "near"]) "."
    if ((section, "like") in values)
        print "What is not stated here is that of " roff(values[section, "like"]) "."
    for (i = 1; i <= count[section]; i++) {
        key = keys[section, i]
        if (key ~ /^(title|summary|also|near|like|source)$/ || key ~ /\.source$/) continue
        print ".TP"
        print ".B " quoted(key)
        print roff(values[section, key])
        if ((section, key ".source") in values)
            print ".br\n.RI ( " quoted(values[section, key ".source"]) " )"
        else if ((section, "source") in values)
            print ".br\n.RI ( " quoted(values[section, "source"]) " )"
    }
}

function write_caution(section) {
    print ".TP"
    print ".B " quoted(capital(values[section, "severity"]))
    print roff(values[section, "text"])
    if ((section, "when") in values) print ".br\nShown when " roff(values[section, "when"]) "."
    print ".br\n.RI ( " quoted(values[section, "source"]) " )"
}

# Dangers first.
function write_cautions(    i, k, severities) {
    split("danger care note", severities, " ")
    for (k = 1; k <= 3; k++)
        for (i = 1; i <= sections; i++)
            if (order[i] ~ /^caution\./ && values[order[i], "severity"] == severities[k])
                write_caution(order[i])
}

END {
    title = ("family", "title") in values ? values["family", "title"] : family
    print ".\\\" Made from the table of the family; SPDX-License-Identifier: CC0-1.0"
    print ".TH " quoted("COOLBITE-" toupper(family)) " 7 \"\" " quoted("Coolbite " version) \
        " \"Coolbite materials\""
    print ".ad l" # long references cannot be spread over a line
    print ".SH NAME"
    print "coolbite\\-" roff(family) " \\- " roff(title) " as coolbite cuts it"
    print ".SH DESCRIPTION"
    if (("family", "summary") in values)
        print roff(title) ": " roff(values["family", "summary"]) "."
    if (("family", "also") in values)
        print "Other names of the family: " roff(values["family", "also"]) "."
    if (("family", "default") in values)
        print ".PP\nWithout a grade,\n.B " quoted("--material " family) "\nis " \
            roff(family "/" values["family", "default"]) "."
    print ".PP"
    print "The band of a figure, in parentheses, holds nine of ten pieces. Below each figure is its"
    print "source, which begins with its grade: standard, handbook, paper, datasheet,"
    print "common\\-practice, memory (recalled, not checked) or estimate."
    print ".BI \"coolbite explain \" NAME"
    print "says what a figure is."
    print ".SH CAUTIONS"
    print "The machine's manual, the safety data sheet and local rules take precedence."
    write_cautions()
    print ".SH GRADES"
    for (i = 1; i <= sections; i++) if (order[i] ~ /^grade\./) write_grade(order[i])
    print ".SH SEE ALSO"
    print ".BR coolbite (1),\n.BR coolbite\\-tables (5)"
}
