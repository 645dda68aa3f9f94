# SPDX-License-Identifier: GPL-3.0-or-later
# awk -f answers.awk answers.txt FINDINGS: compares the findings of one tool with the answers. In
# answers.txt a line that begins at the margin is a finding, or its front; indented lines after one
# or several of them are the reason. tool, seconds: of the run.

/^#/ && FILENAME == ARGV[1] { next }
FILENAME == ARGV[1] && /^[^ \t]/ {
    if (reason) {
        first = count + 1
        reason = 0
    }
    answer[++count] = $0
    next
}
FILENAME == ARGV[1] && /^[ \t]+[^ \t]/ {
    if (count < first) {
        print "answers.txt:" FNR ": a reason without a finding"
        bad++
    }
    for (i = first; i <= count; i++) {
        reasoned[i] = 1
    }
    reason = 1
    next
}
FILENAME == ARGV[2] {
    found++
    known = 0
    for (i = 1; i <= count; i++) {
        if (index($0, answer[i]) == 1) {
            used[i] = 1
            known = 1
        }
    }
    if (!known) {
        print "no answer: " $0
        unanswered++
    }
}
BEGIN { first = 1; count = found = unanswered = bad = reason = 0 }
END {
    for (i = 1; i <= count; i++) {
        if (!(i in reasoned)) {
            print "no reason: " answer[i]
            bad++
        }
        if (!(i in used) && index(answer[i], tool " ") == 1) {
            print "nothing is found any more that needs this answer: " answer[i]
            spare++
        }
    }
    printf "%s: %d findings, %d answered, %d without an answer, %d answers to spare, %d s\n", \
        tool, found, found - unanswered, unanswered, spare, seconds
    exit unanswered + bad > 0
}
