#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# with_families.sh BUILD COMMAND [ARGUMENT ...]
# Runs a command with the built plugins in a private folder: below a folder that a group may write,
# as a clone made with umask 002 is, plugins are refused.
set -eu
build=$1
shift
folder=$(mktemp -d "${TMPDIR:-/tmp}/bite-families-XXXXXX")
trap 'rm -rf "$folder"' EXIT
trap 'exit 1' HUP INT TERM
cp "$build"/plugins/.libs/*.so "$folder/"
chmod 755 "$folder"/*.so
COOLBITE_FAMILY_PATH=$folder
export COOLBITE_FAMILY_PATH
"$@"
