#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The Python package on the library that was built; without NumPy, pandas or Hypothesis the tests
# that need them are skipped.
. "${BITE_TEST_SOURCE:-.}/tests/bindings/python.sh"
find_python cffi pytest
run_tests "$package/tests" --ignore="$package/tests/test_sweep.py"
