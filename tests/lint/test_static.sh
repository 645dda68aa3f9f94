#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The library as an archive alone (--disable-shared --enable-static): it builds, a program links to it
# by pkg-config --static, and it opens the plugins of a shared build; its own build has none. Takes
# some minutes: CI runs it.
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
case $source in /*) ;; *) source=$PWD/$source ;; esac
case $build in /*) ;; *) build=$PWD/$build ;; esac
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT
chmod 700 "$work"
failures=0
bad() { echo "$*"; failures=$((failures + 1)); }
mkdir "$work/build"
(cd "$work/build" && "$source/configure" --disable-shared --enable-static --prefix="$work/prefix" \
    CC="${CC:-gcc}" CFLAGS=-O1 >"$work/log" 2>&1 && make -j2 >>"$work/log" 2>&1 &&
    make install >>"$work/log" 2>&1) || { tail -n 20 "$work/log"; exit 1; }
[ -e "$work/prefix/lib/libcoolbite.a" ] || bad "no archive is installed"
[ -z "$(find "$work/prefix" -name '*.so*')" ] || bad "a shared library is installed"
grep -q 'plugins of materials are not built' "$work/log" || bad "configure does not say that there are no plugins"
cat >"$work/version.c" <<'C'
#include <coolbite/coolbite.h>
#include <stdio.h>
#include <string.h>
int main(void)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        printf("%s\n", error.message);
        return 1;
    }
    bite_library_close(library);
    return bite_version_number() == BITE_VERSION_NUMBER ? 0 : 1;
}
C
PKG_CONFIG_PATH=$work/prefix/lib/pkgconfig
export PKG_CONFIG_PATH
# shellcheck disable=SC2046
${CC:-gcc} $(pkg-config --cflags coolbite) "$work/version.c" $(pkg-config --static --libs coolbite) -o "$work/version" ||
    bad "a program does not link by pkg-config --static"
"$work/version" || bad "a program does not run"
# The same cut with the plugins of the shared build, where there is one; their cautions tell them apart.
if ls "$build"/plugins/.libs/*.so >/dev/null 2>&1; then
    mkdir -m 700 "$work/families" "$work/tables" "$work/tables/materials"
    (umask 022 && cp "$source"/tables/*.ini "$work/tables/" && cp "$source"/tables/materials/*.ini "$work/tables/materials/")
    cp "$build"/plugins/.libs/*.so "$work/families/" && chmod 600 "$work"/families/*.so
    number=0
    for program in "$work/prefix/bin/coolbite" "$build/coolbite"; do
        number=$((number + 1))
        COOLBITE_TABLE_PATH=$work/tables COOLBITE_FAMILY_PATH=$work/families "$program" cut --no-config --material acrylic/cast --tool 3mm \
            --spindle 12000rpm --feed 600mm/min --depth 1mm --format json >"$work/answer-$number.json" ||
            [ $? -lt 4 ] || bad "$program fails"
    done
    [ -s "$work/answer-1.json" ] && cmp -s "$work/answer-1.json" "$work/answer-2.json" || bad "the archive and the shared library answer differently"
fi
[ "$failures" -eq 0 ]
