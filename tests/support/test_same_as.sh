#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The comparison with an older commit notices what it should. Without Python 3 it is skipped.
set -u
support=${BITE_TEST_SOURCE:-.}/tests/support
command -v python3 >/dev/null 2>&1 || exit 77
exec python3 -B "$support/same_as" --self-test
