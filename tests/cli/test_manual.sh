#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The manual pages and the completions have every command, option and word of the program, every
# key of a job file and every function of the library, and are accepted by the shells and by groff.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
completions=$build/bindings/cli/completions
manual=$build/bindings/cli/coolbite.1
bash_file=$completions/bash/coolbite
zsh_file=$completions/zsh/_coolbite
fish_file=$completions/fish/coolbite.fish
for file in "$manual" "$bash_file" "$zsh_file" "$fish_file"; do
    check "there is no $file" [ -s "$file" ]
done

# the page without the markup of roff
sed 's/\\-/-/g; s/\\&//g; s/"//g' "$manual" >"$work/manual"
check 'a part of coolbite(1) was not filled in' sh -c '! grep -q @ "$1"' - "$work/manual"
check 'coolbite(1) names no version' grep -qF \
    "Coolbite $("$program" --version | sed -n '1s/coolbite //p')" "$work/manual"

# the part of a completion that belongs to one command
bash_part() {
    sed -n "/^        $1:\*)/,/words='.*' ;;\$/s/.*words='\(.*\)' ;;/\1/p" "$bash_file" |
        tr ' ' '\n'
}
zsh_part() { sed -n "/^        $1)\$/,/;;\$/p" "$zsh_file"; }
fish_part() { grep -E "__fish_seen_subcommand_from[^']* $1[ ']" "$fish_file"; }

# ---- every command and each of its options, as the program itself lists them ----
"$program" --help | sed -n 's/^  coolbite \([a-z-]*\) [A-Z[].*/\1/p' | sort -u >"$work/commands"
check 'there are eleven commands' [ "$(wc -l <"$work/commands")" -eq 11 ]
while read -r command; do
    check "coolbite(1) lacks $command" grep -q "^\.BI coolbite $command " "$work/manual"
    check "bash lacks $command" grep -q "words='.*$command.*--version'" "$bash_file"
    check "zsh lacks $command" grep -q "^        '$command:" "$zsh_file"
    check "fish lacks $command" grep -q "__fish_use_subcommand -a $command " "$fish_file"
    "$program" "$command" --help | sed -n 's/^  --\([a-z-]*\).*/\1/p' >"$work/options"
    check "$command has options" [ "$(wc -l <"$work/options")" -ge 5 ]
    bash_part "$command" >"$work/bash"
    zsh_part "$command" >"$work/zsh"
    fish_part "$command" >"$work/fish"
    while read -r option; do
        check "coolbite(1) lacks --$option" grep -Eq "^\.BI --$option( |\$)" "$work/manual"
        check "bash lacks $command --$option" grep -qxF -e "--$option" "$work/bash"
        check "zsh lacks $command --$option" grep -Eq "^ *'\*--$option=?\[" "$work/zsh"
        check "fish lacks $command --$option" grep -q -e " -l $option " "$work/fish"
    done <"$work/options"
    # and no others
    sed -n 's/^--//p' "$work/bash" | sort >"$work/offered"
    sort "$work/options" | cmp -s - "$work/offered" && good ||
        bad "bash offers other options for $command than $(tr '\n' ' ' <"$work/options")"
done <"$work/commands"

# ---- the program accepts the words that the completions offer ----
sed -n "s/^        \*:--\([a-z-]*\)) words='\(..*\)' ;;/\1 \2/p" "$bash_file" |
    grep -v '\$(' >"$work/words"
check 'there are options with words' [ "$(wc -l <"$work/words")" -ge 8 ]
while read -r option words; do
    command=cut
    case $option in kind) command=list ;; hand) command=show ;; goal) command=choose ;; took) command='job none.ini' ;; esac
    # shellcheck disable=SC2086
    taken=$("$program" $command 2>&1) # the message about what is missing if the options are valid
    for word in $words; do
        # shellcheck disable=SC2086
        got=$("$program" $command "--$option" "$word" 2>&1)
        [ "$got" = "$taken" ] && good || bad "--$option $word: $got"
    done
    # shellcheck disable=SC2086
    got=$("$program" $command "--$option" no-such-word 2>&1)
    [ "$got" != "$taken" ] && good || bad "--$option accepts any word"
done <"$work/words"
for word in $(bash_part list | grep '^[a-z]'); do
    check "list $word" "$program" list "$word" --output "$work/list.txt"
done
for command in $(cat "$work/commands"); do
    words=$(sed -n "s/^        $command:--format) words='\(.*\)' ;;/\1/p" "$bash_file")
    check "$command has formats" [ -n "$words" ]
    for word in $words; do
        check "$command --format $word" "$program" "$command" --format "$word" --help >/dev/null
    done
done

# ---- the commands accept the options of the examples in coolbite(1) ----
sed -n '/^\.SH EXAMPLES/,/^\.SH SEE/p' "$work/manual" |
    sed -e ':join' -e '/\\e$/{N;s/\\e\n//;b join' -e '}' -e 's/  */ /g' |
    sed -n 's/^coolbite //p' >"$work/examples"
check 'coolbite(1) has examples' [ "$(wc -l <"$work/examples")" -ge 10 ]
while read -r example; do
    # shellcheck disable=SC2086
    check "coolbite $example" "$program" $example --help >/dev/null
done <"$work/examples"

# ---- the other pages ----
keys=$(sed -n 's/.*\(TEXT\|WORD\|FIGURE\|LENGTH\)("\([a-z_]*\)".*/\2/p; s/, *TEXT("\([a-z_]*\)")/\
\1/gp' "$source/core/job/job_file_schema.c" | grep -x '[a-z_]*' | sort -u)
check 'a job file has keys' [ "$(echo "$keys" | wc -l)" -ge 70 ]
for key in $keys; do
    check "coolbite-job(5) lacks $key" grep -Eq "^\.BR? (.*[ \"])?$key(,|\$|[ \"])" \
        "$source/tables/coolbite-job.5"
done
keys=$(sed -n 's/.*\(TEXT\|WORD\|FIGURE\|LENGTH\|WHOLE\)(KEY, \([a-z_]*\).*/\2 &/p' "$source/core/inspection/record_head.c" |
    sed 's/^[a-z_]* .*TEXT(KEY, [a-z_]*, "\([a-z_]*\)").*/\1/; s/ .*//' | grep -vx member | sort -u)
check 'a record has keys' [ "$(echo "$keys" | wc -l)" -ge 35 ]
for key in $keys; do
    check "coolbite-record(5) lacks $key" grep -Eq "^\.BR? (.*[ \"])?$key(,|\$|[ \"])" \
        "$source/tables/coolbite-record.5"
done
for name in $(cat "$source/core/exported-symbols.txt"); do
    check "libcoolbite(3) lacks $name" grep -qx "\.B $name" "$source/core/libcoolbite.3"
    check "$name is not on one page of its group" \
        [ "$(grep -lx "\.SS $name" "$build"/core/man/libcoolbite-*.3 | wc -l)" -eq 1 ]
done
for page in "$build"/core/man/libcoolbite-*.3; do
    name=$(basename "$page" .3 | sed 's/-/\\\\-/g')
    check "libcoolbite(3) refers to $name" grep -qx "\.BR $name (3),*" "$source/core/libcoolbite.3"
done
sed -n '/^```c$/,/^```$/p' "$source/README.md" | sed '/^```/d' >"$work/readme"
sed -n '/^\.SH EXAMPLE/,/^\.EE/p' "$source/core/libcoolbite.3" | sed '/^\./d
    s/\\&//g; s/\\-/-/g; s/\\(dq/"/g; s/\\(aq/'"'"'/g; s/\\e/\\/g' >"$work/example"
check 'the example of libcoolbite(3) is not that of the README' cmp "$work/readme" "$work/example"

# ---- a page for each family, with all that its table says ----
for table in "$source"/tables/materials/*.ini; do
    family=$(basename "$table" .ini)
    page=$build/tables/man/coolbite-$family.7
    check "there is no coolbite-$family(7)" [ -s "$page" ] || continue
    sed 's/\\-/-/g; s/\\(dq/"/g' "$page" >"$work/page"
    for part in grade caution; do
        in_table=$(grep -c "^\[$part\." "$table")
        case $part in grade) mark='^\.SS ' ;; caution) mark='^\.B "\(Danger\|Care\|Note\)"' ;; esac
        check "coolbite-$family(7): each $part" [ "$(grep -c "$mark" "$work/page")" -eq "$in_table" ]
    done
    sed -n 's/^density = //p; s/^text = "\(.*\)"$/\1/p' "$table" >"$work/said"
    check "coolbite-$family(7) lacks text" sh -c \
        'while read -r text; do grep -qF -- "$text" "$2" || exit 1; done <"$1"' - "$work/said" "$work/page"
done

# ---- shells and groff ----
for shell in bash zsh fish; do
    eval "file=\$${shell}_file"
    if command -v "$shell" >/dev/null 2>&1; then
        expect 0 '' -- "$shell" -n "$file"
    else
        skipped "the completion for $shell: it is not installed"
    fi
done
if command -v bash >/dev/null 2>&1; then
    got=$(PATH="$build:$PATH" bash -c '. "$1"; COMP_WORDS=(coolbite cut --machine bench-2)
        COMP_CWORD=3; _coolbite; echo "${COMPREPLY[*]}"
        COMP_WORDS=(coolbite choose --spindle-s) COMP_CWORD=2; _coolbite; echo "${COMPREPLY[*]}"' \
        - "$bash_file")
    check "bash completes to $got" [ "$got" = 'bench-24k
--spindle-steps' ]
fi
if command -v groff >/dev/null 2>&1; then
    for page in "$manual" "$source/tables/coolbite-job.5" "$source/tables/coolbite-shop.5" "$source/tables/coolbite-tables.5" "$source/tables/coolbite-record.5" \
        "$source/core/libcoolbite.3" "$build"/core/man/libcoolbite-*.3 "$build"/tables/man/coolbite-*.7; do
        expect 0 '' -- groff -man -t -ww -z "$page"
    done
else
    skipped 'the manual pages: groff is not installed'
fi

finish
