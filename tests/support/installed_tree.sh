# SPDX-License-Identifier: GPL-3.0-or-later
# Shared by the tests of what a package installs, which read it with ". installed_tree.sh" once $build is
# an absolute path and $work a folder of theirs. It installs the build below $stage, and the environment
# finds library, tables, plugins and pkg-config's file there alone.
command -v pkg-config >/dev/null 2>&1 || { echo 'no pkg-config: skipped'; exit 77; }
unset MAKEFLAGS MFLAGS MAKELEVEL # those of make check
printf 'told-%%:\n\t@echo $($*)\n' >"$work/told.mk"

# told NAME: the value of a variable of the Makefile
told() { make -s --no-print-directory -C "$build" -f Makefile -f "$work/told.mk" "told-$1"; }

compiler=$(told CC) sanitizers=$(told BITE_SANITIZE)
libdir=$(told libdir) docdir=$(told docdir) families=$(told familydir) tables=$(told tabledir)
stage=$work/stage
make -C "$build" install DESTDIR="$stage" >"$work/install.log" 2>&1 || { tail -n 20 "$work/install.log"; exit 99; }
chmod -R go-w "$stage"
export PKG_CONFIG_SYSROOT_DIR="$stage" PKG_CONFIG_PATH="$stage$libdir/pkgconfig"
export LD_LIBRARY_PATH="$stage$libdir" COOLBITE_TABLE_PATH="$stage$tables" COOLBITE_FAMILY_PATH="$stage$families"
export HOME="$work/home" LC_ALL=C
unset XDG_CONFIG_HOME XDG_DATA_HOME COOLBITE_CONFIG
mkdir -m 755 "$HOME"
