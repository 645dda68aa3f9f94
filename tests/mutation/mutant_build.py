# SPDX-License-Identifier: GPL-3.0-or-later
"""A build whose tests find the library at run time, so that one changed file costs one compilation
and one link.

The objects of an existing build are used as they are, but for two things: their debug information
is left out, and names that are hidden outside the library are made visible, because tests use
them."""
import hashlib
import os
import re
import resource
import shlex
import shutil
import struct
import subprocess
import threading
import time

PRINT = r"""
print-mutation:
	$(info flags=$(DEFS) $(AM_CPPFLAGS) $(CPPFLAGS) $(libbite_la_CFLAGS) $(CFLAGS))
	$(info test_flags=$(DEFS) $(AM_CPPFLAGS) $(CPPFLAGS) $(AM_CFLAGS) $(CFLAGS))
	$(info libs=$(GSL_LIBS) $(JANSSON_LIBS) $(EXPAT_LIBS) $(INIPARSER_LIBS) $(LIBM) $(CHECK_LIBS))
	$(info compiler=$(CC))
	$(info objects=$(libbite_la_OBJECTS))
	$(info program=$(coolbite_OBJECTS))
	$(foreach t,$(BITE_CHECK_TESTS),$(info $(t)=$($(subst /,_,$(t))_OBJECTS)))
	@:
"""


def show_hidden(path):
    """Gives the symbols of an ELF object default visibility."""
    with open(path, "rb") as file:
        data = bytearray(file.read())
    if data[:6] != b"\x7fELF\x02\x01":
        raise SystemExit("mutation: %s is not a 64-bit little-endian ELF object" % path)
    sections = struct.unpack_from("<Q", data, 0x28)[0]
    size, count = struct.unpack_from("<HH", data, 0x3A)
    for i in range(count):
        at = sections + i * size
        kind = struct.unpack_from("<I", data, at + 4)[0]
        if kind != 2:  # SHT_SYMTAB
            continue
        start, length = struct.unpack_from("<QQ", data, at + 24)
        for symbol in range(start, start + length, 24):
            data[symbol + 5] &= 0xFC  # STV_DEFAULT
    with open(path, "wb") as file:
        file.write(data)


def run_limited(command, cwd, environment, cpu, wall):
    """Exit status (None: out of time) and seconds of processor time."""

    def limits():
        os.setsid()
        resource.setrlimit(resource.RLIMIT_CPU, (int(cpu) + 1, int(cpu) + 1))
        resource.setrlimit(resource.RLIMIT_FSIZE, (512 << 20, 512 << 20))
        resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))

    child = subprocess.Popen(
        command,
        cwd=cwd,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.STDOUT,
        preexec_fn=limits,
    )
    end = time.monotonic() + wall
    while True:
        pid, status, usage = os.wait4(child.pid, os.WNOHANG)
        if pid:
            child.returncode = os.waitstatus_to_exitcode(status)
            return child.returncode, usage.ru_utime + usage.ru_stime
        if time.monotonic() > end:
            os.killpg(child.pid, 9)
            _, _, usage = os.wait4(child.pid, 0)
            child.returncode = -9
            return None, usage.ru_utime + usage.ru_stime
        time.sleep(0.005)


class Build:
    """What all workers share: objects, linked tests, plugins in a private folder."""

    def __init__(self, source, build, folder):
        self.source, self.build, self.folder = (os.path.abspath(p) for p in (source, build, folder))
        os.makedirs(self.folder, exist_ok=True)
        with open(self.path("print.mk"), "w") as file:
            file.write(PRINT)
        make = ["make", "-s", "-f", "Makefile", "-f", self.path("print.mk"), "print-mutation"]
        lines = self.run(make)
        self.made = dict(line.split("=", 1) for line in lines.splitlines() if "=" in line)
        compiler = shlex.split(self.made["compiler"])
        self.compiler = compiler[1:] if os.path.basename(compiler[0]) == "ccache" else compiler
        self.flags = [f for f in shlex.split(self.made["flags"]) if f != "-g"] + ["-w"]
        self.libs = shlex.split(self.made["libs"])
        self.lock = threading.Lock()
        self.tests = {k: v.split() for k, v in self.made.items() if k.startswith("tests/")}
        self.prepare()

    def path(self, *names):
        return os.path.join(self.folder, *names)

    def run(self, command):
        done = subprocess.run(
            command, cwd=self.build, check=True, stdout=subprocess.PIPE, text=True
        )
        return done.stdout

    def object_of(self, name):
        """The position-independent object of a libtool object, and our copy of it."""
        folder, base = os.path.split(name[:-3])
        made = os.path.join(self.build, folder, ".libs", base + ".o")
        return made, self.path("objects", name[:-3] + ".o")

    def prepare(self):
        self.copies = {}
        for name in self.made["objects"].split():
            made, copy = self.object_of(name)
            self.copies[re.sub(r"libbite_la-", "", name[:-3]) + ".c"] = copy
            if not os.path.exists(copy) or os.path.getmtime(copy) < os.path.getmtime(made):
                os.makedirs(os.path.dirname(copy), exist_ok=True)
                self.run(["objcopy", "--strip-debug", made, copy])
                show_hidden(copy)
        self.library = self.path("whole")
        self.link(self.library, {})
        self.link_program(self.path("coolbite"), self.made["program"].split())
        os.makedirs(self.path("tests/plugins"), exist_ok=True)
        for name in ("plugins", "tables", "bindings", "tests/plugins/.libs"):
            if not os.path.lexists(self.path(name)):
                os.symlink(os.path.join(self.build, name), self.path(name))
        shutil.rmtree(self.path("families"), ignore_errors=True)
        os.makedirs(self.path("families"), mode=0o755)
        for name in sorted(os.listdir(os.path.join(self.build, "plugins/.libs"))):
            if name.endswith(".so"):
                made = os.path.join(self.build, "plugins/.libs", name)
                shutil.copy(made, self.path("families", name))
                os.chmod(self.path("families", name), 0o755)

    def link(self, folder, changed):
        os.makedirs(folder, exist_ok=True)
        objects = [changed.get(source, copy) for source, copy in self.copies.items()]
        with open(os.path.join(folder, "objects"), "w") as file:
            file.write("\n".join(objects))
        out = os.path.join(folder, "libmutation.so")
        command = self.compiler + ["-shared", "-Wl,-Bsymbolic", "-Wl,-soname,libmutation.so"]
        command += ["-o", out, "@" + os.path.join(folder, "objects")] + self.libs
        return subprocess.run(
            command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False
        )

    def program_of(self, test):
        """The test, linked when it is first used."""
        with self.lock:
            self.link_program(self.path(test), self.tests[test])
        return self.path(test)

    def link_program(self, out, objects, force=False):
        """Against the library that is found by LD_LIBRARY_PATH."""
        made = [o if os.path.isabs(o) else os.path.join(self.build, o) for o in objects]
        support = os.path.join(self.build, "tests/.libs/libsupport.a")
        newest = max(os.path.getmtime(o) for o in made + [support])
        if not force and os.path.exists(out) and os.path.getmtime(out) > newest:
            return
        os.makedirs(os.path.dirname(out), exist_ok=True)
        command = self.compiler + ["-o", out] + made + [support, "-Wl,--no-as-needed"]
        command += ["-L" + self.library, "-lmutation"] + self.libs
        subprocess.run(command, check=True)

    def compile(self, overlay, source, out, flags=None):
        """An object of a file below `overlay`, whose headers come before those of the tree."""
        command = self.compiler + ["-I" + overlay] + (flags or self.flags)
        command += ["-fPIC", "-DPIC", "-c", "-o", out]
        command += [os.path.join(overlay, source)]
        done = subprocess.run(command, cwd=self.build, stderr=subprocess.DEVNULL, check=False)
        return done.returncode == 0

    def environment(self, library, folder):
        out = dict(os.environ)
        out.update(
            LD_LIBRARY_PATH=library,
            BITE_TEST_SOURCE=self.source,
            BITE_TEST_BUILD=self.folder,
            COOLBITE_TABLE_PATH=os.path.join(self.source, "tables"),
            COOLBITE_FAMILY_PATH=self.path("families"),
            CK_FORK="no",
            TMPDIR=folder,
            HOME=folder,
        )
        out.pop("MAKEFLAGS", None)
        return out


def bytes_of(path):
    with open(path, "rb") as file:
        return file.read()


def text_of(path):
    with open(path, encoding="utf-8") as file:
        return file.read()


def digest(*texts):
    return hashlib.sha256("\0".join(texts).encode()).hexdigest()
