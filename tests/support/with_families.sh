#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# with_families.sh BUILD COMMAND [ARGUMENT ...]
# Runs a command with the built plugins, and a copy of the tables, in a private folder: below a
# folder that a group may write, as a clone made with umask 002 is, both are refused.
set -eu
build=$1
shift
umask 022
folder=$(mktemp -d "${TMPDIR:-/tmp}/bite-families-XXXXXX")
trap 'rm -rf "$folder"' EXIT
trap 'exit 1' HUP INT TERM
cp "$build"/plugins/.libs/*.so "$folder/"
chmod 755 "$folder"/*.so
COOLBITE_FAMILY_PATH=$folder
if [ -n "${BITE_TEST_SOURCE:-}" ]; then
    mkdir -p "$folder/tables/materials"
    cp "$BITE_TEST_SOURCE"/tables/*.ini "$folder/tables/"
    cp "$BITE_TEST_SOURCE"/tables/materials/*.ini "$folder/tables/materials/"
    chmod -R u+w,go-w "$folder/tables"
    COOLBITE_TABLE_PATH=$folder/tables
    export COOLBITE_TABLE_PATH
fi
export COOLBITE_FAMILY_PATH
"$@"
