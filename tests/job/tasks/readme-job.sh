# SPDX-License-Identifier: GPL-3.0-or-later
# The job that the README works through gives the answers that it prints there.
readme() { # TEXT: the README says so; what the program says is checked against the same text
    if grep -qF -- "$1" "$source/README.md"; then good; else bad "$task: the README does not say: $1"; fi
    says "$1"
}
sed -n '/^```ini$/,/^```$/{/^```/!p;}' "$source/README.md" >"$work/foot.ini"
if grep -q '^name = microscope foot$' "$work/foot.ini"; then good; else bad "$task: the README has no job"; fi
ask job "$work/foot.ini"
exits 0 1
readme 'clearance: tool 7 mm to clamp strap'
readme 'Checked with the part 4 mm deep between jaws that are 50 mm apart in setup 2'
says_not 'sweeps'
sed 's/^across = 24 mm/across = 44 mm/' "$work/foot.ini" >"$work/wide.ini"
ask job "$work/wide.ini"
exits 2
readme 'DANGER: "well" sweeps 3 mm into clamp strap: move one of them, or use a smaller tool.'
