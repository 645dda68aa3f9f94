#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# sh package.sh ARCHIVE FOLDER: Debian packages from the source archive coolbite-VERSION.tar.xz, below FOLDER.
# DEBFULLNAME and DEBEMAIL name the packager. DEB_BUILD_OPTIONS=nocheck leaves the tests out, which take
# some minutes.
set -eu
archive=$1
folder=$2
here=$(cd "$(dirname "$0")" && pwd)
version=$(basename "$archive" .tar.xz | sed 's/^coolbite-//')
if [ -z "${DEBFULLNAME:-}" ] || [ -z "${DEBEMAIL:-}" ]; then
    echo 'package.sh: set DEBFULLNAME and DEBEMAIL to your name and address: they become the maintainer of the packages' >&2
    exit 64
fi
mkdir -p "$folder"
cp "$archive" "$folder/coolbite_$version.orig.tar.xz"
cd "$folder"
rm -rf "coolbite-$version"
tar -xf "coolbite_$version.orig.tar.xz"
cp -r "$here" "coolbite-$version/debian"
cd "coolbite-$version"
rm debian/package.sh debian/Makefile.inc debian/*.in
for file in control changelog; do
    sed -e "s/@VERSION@/$version/" -e "s/@DATE@/$(LC_ALL=C date -R -r NEWS)/" \
        -e "s/@PACKAGER@/$DEBFULLNAME <$DEBEMAIL>/" "$here/$file.in" >"debian/$file"
done
dpkg-buildpackage -us -uc
