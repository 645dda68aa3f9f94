#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# make_locales.sh FOLDER
# Compiles the locales of tests/support/test_locale.c into a folder, where localedef and its sources
# are there: a system has mostly none whose decimal mark is no point.
set -u
mkdir -p "$1" || exit 1
for language in de_DE tr_TR ps_AF; do
    localedef --no-archive -i $language -f UTF-8 "$1/$language.UTF-8" >/dev/null 2>&1 ||
        echo "no locale $language: its sources, or localedef, are not installed"
done
