#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The sweep of a catalogue on Dask: a scheduler and two worker processes on loopback.
. "${BITE_TEST_SOURCE:-.}/tests/bindings/python.sh"
find_python cffi pytest distributed
run_tests "$package/tests/test_sweep.py"
