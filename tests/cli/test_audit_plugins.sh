#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# coolbite audit finds the project's plugins sound, and names what each broken one does, with the
# stage at which it does it: it never hangs, crashes or is taken in.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"

expect 0 '' -- "$program" audit "$work/families"
check 'the plugins of the project are sound' grep -q '^sound: 0 tables and [0-9]* plugins; ' "$work/out"
check 'their grades were tried' sh -c '! grep -Eq " 0 (grades|trial cuts)" "$1"' - "$work/out"

mkdir -m 755 "$work/broken"
plugin=$work/broken/acrylic.so

# put NAME: the broken plugin under the name of the family that it says it has
put() {
    cp "$build/tests/plugins/.libs/$1.so" "$plugin" && chmod 644 "$plugin" ||
        bad "there is no plugin $1"
}

# finds NAME TEXT: exit status 1 and a line for the file with the text
finds() {
    "$program" audit --time-limit "${limit:-30s}" "$plugin" >"$work/out" 2>"$work/err"
    got=$?
    if [ "$got" -eq 1 ] && [ ! -s "$work/err" ] && grep -F "$plugin: " "$work/out" | grep -qF "$2" &&
        [ "$(sed -n '$s/ .*//p' "$work/out")" -eq $(($(wc -l <"$work/out") - 1)) ]; then
        good
    else
        bad "$1: exit status $got: $(cat "$work/out" "$work/err")"
    fi
}

# ---- refused, or its own fault ----
while read -r name says; do
    put "$name"
    finds "$name" "$says"
done <<'END'
absurd grade.cast: the plugin cannot complete acrylic/cast: set density: the figure is outside
caution_bytes failed to give its cautions: caution toy: bytes in it that are not UTF-8
caution_escape caution toy: a control character in it
caution_ignored caution toy: a control character in it
caution_lines caution toy: a control character in it
caution_source caution toy: a character in it that changes the direction of writing
crashes it crashed while opening the plugin of acrylic
folder the name of its table is not a plain file name
leaves it ended the process while opening the plugin of acrylic, with exit status 0
leaves_cautioning it ended the process while judging cuts of acrylic/cast
leaves_filling it ended the process while completing acrylic/cast
leaves_last it changed the exit status while ending the process, to 0
leaves_politely it ended the process while opening the plugin
marked it crashed while opening the plugin of acrylic: Aborted
named the name of its family is not the name of its file
newer it was built for version 99 of the plugin interface
none does not export bite_family_entry
null its entry function returns no family
reason_escape two and two are \x1b[31mfive\xff
short its descriptor is shorter than
source_bytes the source has bytes in it that are not UTF-8
source_escape the source has a control character in it
source_turned changes the direction of writing
sourceless the source does not begin with a grade
table_escape the name of its table is not a plain file name
unchecked the plugin failed its own check: two and two are five
unfilled this toy never fills
unresolved undefined symbol: a_function_that_nobody_has
END

# ---- what it does to its process ----
put hostile
expect 0 '' -- "$program" audit "$plugin"
while read -r name at says; do
    export BITE_TEST_HOSTILE="$name" BITE_TEST_HOSTILE_AT="$at"
    case $name in loops) limit=2s ;; *) limit=30s ;; esac
    finds "$name at $at" "$says"
done <<'END'
loops fill it had not finished after 2 s, while completing acrylic/cast
loops open it had not finished after 2 s, while opening the plugin of acrylic
loops end it had not finished after 2 s, while ending the process
crashes fill it crashed while completing acrylic/cast
crashes end it crashed while ending the process
aborts check it crashed while opening the plugin of acrylic: Aborted
aborts caution it crashed while judging cuts of acrylic/cast: Aborted
leaves fill it ended the process while completing acrylic/cast
leaves-politely caution it ended the process while judging cuts of acrylic/cast
prints fill standard output, which begin: hello\x0a
prints end it wrote 6 bytes to standard output
complains caution standard error, which begin: ugly \x1b[31mred\x0a
locale open it changed the locale while opening the plugin
rounding fill it changed the rounding mode while completing acrylic/cast
signal check it changed what signal 15 does
blocks caution it changed which signals are blocked while judging cuts of acrylic/cast
environment fill it changed the environment
folder fill it changed the working folder
mask open it changed the mask of new files
leaks fill it left 1 file open while completing acrylic/filled
leaks caution it left 8 files open while judging cuts of acrylic/cast
closes fill it closed a file that it had not opened
starts open it started a process while opening the plugin
nan fill set density: the band is not in the order low, value, high, or a figure is not a number
negative fill set density: the figure is outside its possible range
unterminated fill it crashed while completing acrylic/cast
moody fill the same cut of acrylic/cast has two answers
END
if grep -q '^BITE_SANITIZE = .*-fsanitize' "$build/Makefile"; then
    skipped 'the limit of memory: sanitizers need more than any'
else
    export BITE_TEST_HOSTILE=eats BITE_TEST_HOSTILE_AT=fill
    finds 'eats' 'it crashed while completing acrylic/cast: Aborted'
fi
unset BITE_TEST_HOSTILE BITE_TEST_HOSTILE_AT

# ---- names, rights, tables ----
chmod 666 "$plugin"
finds 'writable by others' 'the plugin can be written by users other than its owner'
chmod 644 "$plugin"
mv "$plugin" "$work/broken/Acrylic 2.so"
plugin="$work/broken/Acrylic 2.so"
finds 'a wrong name' 'a plugin has the name FAMILY.so'
rm -f "$plugin"
plugin=$work/broken/soap.so
put none
finds 'no plugin' 'does not export bite_family_entry'
ln -sf /nowhere/soap.so "$work/broken/lost.so"
expect 66 'No such file' -- "$program" audit "$work/broken/lost.so"

# a sound one is not blamed for a broken one beside it
cp "$work/families/aluminium.so" "$work/broken/aluminium.so"
rm -f "$work/broken/lost.so"
"$program" audit "$work/broken" >"$work/out" 2>"$work/err"
check 'only the broken one has a fault' sh -c \
    '[ "$(grep -c "soap.so: " "$1")" -eq 1 ] && ! grep -q aluminium "$1" && grep -q "^1 fault in 0 tables and 2 plugins" "$1"' - "$work/out"
finish
