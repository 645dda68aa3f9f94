#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# msan_libraries.sh FOLDER
# Builds jansson, expat and Check with MemorySanitizer, below FOLDER: their inline functions read
# what they have written, and they call functions of ours. The sources are those of the system's
# packages, from apt-get source with lists of its own; nothing of the system is changed. GSL and
# iniparser are left as they are, see initialized.c. Exit status 77: the sources cannot be had here.
set -u
mkdir -p "$1" || exit 99
cd "$1" || exit 99
flags='-g -O1 -fsanitize=memory -fsanitize-memory-track-origins -fno-omit-frame-pointer'
# shellcheck disable=SC1091
release=$(. /etc/os-release 2>/dev/null && [ "$ID" = debian ] && echo "$VERSION_CODENAME")
[ -n "$release" ] && command -v cmake >/dev/null 2>&1 && command -v apt-get >/dev/null 2>&1 || {
    echo "msan: sources of libraries are fetched on Debian alone, and built with cmake"
    exit 77
}

# fetch SUITE ...: "debian bookworm" is the one of that name on the mirror
fetch() {
    mkdir -p lists/partial cache/archives/partial
    for suite in "$@"; do
        echo "deb-src http://deb.debian.org/${suite% *} ${suite#* } main"
    done >sources.list
    set -- -q -o Dir::Etc::SourceList="$PWD/sources.list" -o Dir::Etc::SourceParts=/nonexistent \
        -o Dir::State::Lists="$PWD/lists" -o Dir::Cache="$PWD/cache" -o APT::Sandbox::User=root
    apt-get "$@" update && apt-get "$@" source --tar-only jansson expat check
}

# The newest, or those of the release where a mirror lacks these.
fetch_any() {
    fetch "debian $release" "debian $release-updates" "debian-security $release-security" ||
        fetch "debian $release"
}

# build FOLDER WORD ...: words for cmake
build() {
    from=$1
    shift
    rm -rf "build-$from"
    mkdir "build-$from"
    (cd "build-$from" && cmake -Wno-dev "../$from" -DCMAKE_C_COMPILER=clang \
        -DCMAKE_C_FLAGS="$flags" -DCMAKE_INSTALL_PREFIX="$PWD/.." -DCMAKE_INSTALL_LIBDIR=lib \
        -DBUILD_SHARED_LIBS=OFF \
        -DCMAKE_POSITION_INDEPENDENT_CODE=ON "$@" && make -s install) >"$from.log" 2>&1 || {
        echo "msan: $from was not built, see $PWD/$from.log"
        exit 99
    }
}

[ -f lib/libcheck.a ] && [ -f lib/libjansson.a ] && [ -f lib/libexpat.a ] && exit 0
fetch_any >fetch.log 2>&1 || {
    echo "msan: the sources cannot be fetched, see $PWD/fetch.log"
    exit 77
}
for name in jansson expat check; do
    rm -rf "$name"
    mkdir "$name"
    tar -xf "$(echo "$name"_*.orig.tar.gz)" -C "$name" --strip-components=1 || exit 99
done
rm -f check/src/check.h # it is made anew, for subunit
mv expat/expat expat-library
build jansson -DJANSSON_BUILD_DOCS=OFF -DJANSSON_WITHOUT_TESTS=ON -DJANSSON_EXAMPLES=OFF
build expat-library -DEXPAT_BUILD_TOOLS=OFF -DEXPAT_BUILD_EXAMPLES=OFF -DEXPAT_BUILD_TESTS=OFF \
    -DEXPAT_SHARED_LIBS=OFF -DEXPAT_BUILD_DOCS=OFF
build check -DCHECK_ENABLE_TESTS=OFF
rm -f lib/*.so*
sed -i 's/-lcheck/-lcheck -lsubunit/' lib/pkgconfig/check.pc
