# SPDX-License-Identifier: GPL-3.0-or-later
"""Builds the older commit beside this tree, and lays out what each program needs."""
import glob
import os
import shlex
import shutil
import subprocess
from run import FOLDER_OF_COMMANDS, Side

# Of this build's configure words these say nothing of its numbers, and may fail in an older tree.
NOT_HANDED_ON = ("--enable-werror", "--cache-file", "--srcdir", "--no-create", "--no-recursion")
# Names of two sides that are equally long: no line breaks differently for a path in it.
SIDE_NAMES = ("old", "new")


class BuildError(Exception):
    """The older commit cannot be had or built."""


def call(words, folder, log, environment=None):
    """Runs a command; where it fails, its last lines are the message."""
    with open(log, "ab") as file:
        done = subprocess.run(words, cwd=folder, env=environment, stdin=subprocess.DEVNULL,
                              stdout=file, stderr=subprocess.STDOUT, check=False)
    if done.returncode != 0:
        with open(log, "rb") as file:
            lines = file.read().decode("utf-8", "replace").splitlines()[-25:]
        raise BuildError("%s failed in %s:\n%s\n(all of it: %s)"
                         % (" ".join(words), folder, "\n".join(lines), log))


def full_hash(source, rev):
    """The hash of the commit that rev names."""
    done = subprocess.run(["git", "-C", source, "rev-parse", "--verify", "--quiet",
                           rev + "^{commit}"], stdout=subprocess.PIPE, check=False)
    if not rev or done.returncode != 0:
        raise BuildError("%s names no commit of %s" % (rev or "an empty REV", source))
    return done.stdout.decode().strip()


def configure_words(build):
    """What this tree was configured with."""
    done = subprocess.run([os.path.join(build, "config.status"), "--config"],
                          stdout=subprocess.PIPE, check=False)
    if done.returncode != 0:
        raise BuildError("%s is not a configured build folder" % build)
    words = shlex.split(done.stdout.decode())
    return [word for word in words if not word.startswith(NOT_HANDED_ON)]


def check_out(source, commit, home, log):
    """The commit's files, without git's own, as the folder source."""
    archive = os.path.join(home, "source.tar")
    call(["git", "-C", source, "archive", "--format=tar", "--prefix=source/", "--output=" + archive,
          commit], home, log)
    call(["tar", "-xf", archive], home, log)
    os.remove(archive)


def quiet_environment():
    """Without the words of the make that called."""
    return dict((name, value) for name, value in os.environ.items()
                if not name.startswith(("MAKE", "MFLAGS", "BITE_")))


def build_commit(source, build, commit, progress):
    """The folder of the built commit: made once, then kept for the same configure words."""
    cache = os.path.join(build, "same-as")
    home = os.path.join(cache, commit)
    words = configure_words(build)
    stamp, wanted = os.path.join(home, "built"), " ".join(shlex.quote(word) for word in words)
    if os.path.exists(stamp):
        with open(stamp, encoding="utf-8") as file:
            if file.read() == wanted:
                return home
    progress("building %s in %s" % (commit[:12], home))
    shutil.rmtree(home, ignore_errors=True)
    os.makedirs(home)
    with open(os.path.join(cache, ".gitignore"), "w", encoding="utf-8") as file:
        file.write("*\n")
    log, clean = os.path.join(home, "log"), quiet_environment()
    check_out(source, commit, home, log)
    os.mkdir(os.path.join(home, "build"))
    call(["sh", "bootstrap"], os.path.join(home, "source"), log, clean)
    call(["../source/configure"] + words, os.path.join(home, "build"), log, clean)
    call(["make", "-j%d" % (os.cpu_count() or 1)], os.path.join(home, "build"), log, clean)
    with open(stamp, "w", encoding="utf-8") as file:
        file.write(wanted)
    return home


def copy_tables(source, target):
    shutil.copytree(os.path.join(source, "tables"), target)


def copy_families(build, target):
    """The plugins in one folder that only its owner can write."""
    os.mkdir(target, 0o755)
    plugins = [os.path.join(folder, name) for folder, _, names in
               os.walk(os.path.join(build, "plugins")) for name in names if name.endswith(".so")]
    if not plugins:
        raise BuildError("no plugins below %s" % build)
    for plugin in plugins:
        copy = os.path.join(target, os.path.basename(plugin))
        shutil.copyfile(plugin, copy)
        os.chmod(copy, 0o644)


def input_files(source, own):
    """The demo jobs of a tree, and the files kept beside this tool: name to path."""
    jobs = glob.glob(os.path.join(source, "tables", "**", "jobs", "*.ini"), recursive=True)
    files = dict((os.path.basename(path), path) for path in jobs)
    if not files:
        raise BuildError("no demo jobs below %s" % os.path.join(source, "tables"))
    files.update((name, os.path.join(own, name)) for name in os.listdir(own))
    return files


def make_side(name, source, build, own, work):
    """Tables, families and a folder for the commands of one program."""
    program = os.path.join(build, "coolbite")
    if not os.access(program, os.X_OK):
        raise BuildError("%s is not there" % program)
    root = os.path.join(work, name)
    os.makedirs(os.path.join(root, FOLDER_OF_COMMANDS))
    copy_tables(source, os.path.join(root, "tables"))
    copy_families(build, os.path.join(root, "families"))
    hidden = [(root, "<side>"), (build, "<build>"), (source, "<source>")]
    return Side(name, program, root, hidden, input_files(source, own))


def make_sides(source, build, home, own, work):
    """The older program, and this tree's."""
    old = make_side(SIDE_NAMES[0], os.path.join(home, "source"), os.path.join(home, "build"),
                    own, work)
    return old, make_side(SIDE_NAMES[1], source, build, own, work)
