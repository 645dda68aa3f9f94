# SPDX-License-Identifier: GPL-3.0-or-later
"""With COOLBITE_BUNDLE=1 the wheel holds the library, its plugins and its tables, from where
pkg-config says that they are; without it they are those of the system. pyproject.toml has the
rest."""
import glob
import os
import pathlib
import shutil
import subprocess
import sys

from setuptools import Distribution, setup
from setuptools.command.build_py import build_py
from wheel.bdist_wheel import bdist_wheel

BUNDLES = os.environ.get("COOLBITE_BUNDLE", "") not in ("", "0")
LIBRARY = "libcoolbite.*.dylib" if sys.platform == "darwin" else "libcoolbite.so.?"


def folder(variable):
    asked = subprocess.run([os.environ.get("PKG_CONFIG") or "pkg-config",
                            f"--variable={variable}", "coolbite"], capture_output=True, text=True,
                           check=False)
    found = asked.stdout.strip()
    if asked.returncode != 0 or not os.path.isdir(found):
        raise SystemExit(f"COOLBITE_BUNDLE: pkg-config knows no {variable} of coolbite that is a "
                         f"folder ({found or asked.stderr.strip()}); set PKG_CONFIG_PATH")
    return pathlib.Path(found)


def files():
    """What a bundle holds: folder in it, file."""
    found = [("", path) for path in glob.glob(str(folder("libdir") / LIBRARY))]
    if not found:
        raise SystemExit(f"COOLBITE_BUNDLE: there is no {LIBRARY} in {folder('libdir')}")
    found += [("families", path) for path in glob.glob(str(folder("familydir") / "*.so"))]
    tables = folder("tabledir")
    for path in sorted(tables.rglob("*.ini")):
        found.append((os.path.join("tables", path.parent.relative_to(tables)), path))
    return found


class BuildWithLibrary(build_py):
    def run(self):
        super().run()
        for inside, path in files() if BUNDLES else ():
            target = pathlib.Path(self.build_lib, "coolbite", "bundle", inside)
            target.mkdir(parents=True, exist_ok=True)
            shutil.copy(path, target)  # follows links: one file by the name that is looked for


class WheelOfPlatform(bdist_wheel):
    """For any Python 3, and with a library for one platform."""

    def get_tag(self):
        return ("py3", "none", super().get_tag()[2] if BUNDLES else "any")


class Package(Distribution):
    """With a library it belongs where compiled modules do."""

    def has_ext_modules(self):
        return BUNDLES


setup(distclass=Package,
      cmdclass={"build_py": BuildWithLibrary, "bdist_wheel": WheelOfPlatform})
