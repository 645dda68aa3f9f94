# SPDX-License-Identifier: GPL-3.0-or-later
"""The shared library: found, opened, compared with the header, and called.

cffi releases the interpreter lock around every call of a C function and takes it again for a
callback: other threads of Python run while a cut is judged.
"""
from __future__ import annotations

import ctypes.util
import os
import pathlib
import shutil
import subprocess
import sys
from typing import Any, Iterator

import cffi

from . import _header, errors

ffi: Any = cffi.FFI()
ffi.cdef(_header.DECLARATIONS)

BUNDLE = pathlib.Path(__file__).resolve().parent / "bundle"
"""Library, plugins and tables of a wheel that has them."""

FILE_NAMES = (
    (f"libcoolbite.{_header.SONAME_NUMBER}.dylib", "libcoolbite.dylib")
    if sys.platform == "darwin"
    else (f"libcoolbite.so.{_header.SONAME_NUMBER}", "libcoolbite.so")
)


def pkg_config_folder() -> str | None:
    """The folder of the library by pkg-config; None if it does not know it."""
    program = shutil.which(os.environ.get("PKG_CONFIG") or "pkg-config")
    if program is None:
        return None
    try:
        asked = subprocess.run([program, "--variable=libdir", "coolbite"], capture_output=True,
                               text=True, timeout=10, check=False)
    except (OSError, subprocess.TimeoutExpired, UnicodeDecodeError):
        return None
    return asked.stdout.strip() or None if asked.returncode == 0 else None


def candidates() -> Iterator[str]:
    """The files to try, in order."""
    named = os.environ.get("COOLBITE_LIBRARY")
    if named:  # no other one is wanted then
        yield named
        return
    for name in FILE_NAMES:
        if (BUNDLE / name).exists():
            yield str(BUNDLE / name)
    folder = pkg_config_folder()
    for name in FILE_NAMES if folder else ():
        if os.path.exists(os.path.join(folder or "", name)):
            yield os.path.join(folder or "", name)
    yield FILE_NAMES[0]  # by the loader's own search
    found = ctypes.util.find_library("coolbite")
    if found:
        yield found


def refuse(path: str, message: str) -> errors.LibraryFileError:
    return errors.LibraryFileError(errors.Fault(
        message, f"this package is for version {_header.VERSION}; install that one, or set "
        "COOLBITE_LIBRARY to its file", file=path))


def compare(lib: Any, path: str) -> None:
    """Refuses a library whose version or structures are not those of the header."""
    try:
        running = ffi.string(lib.bite_version()).decode("ascii", "replace")
    except AttributeError:
        raise refuse(path, "this file is not a libcoolbite") from None
    if running.split(".")[:2] != _header.VERSION.split(".")[:2]:
        raise refuse(path, f"this is version {running} of the library, which does not fit")
    try:
        cut = ffi.new("bite_cut *")
        lib.bite_cut_init_sized(cut, ffi.sizeof("bite_cut"))
    except AttributeError:
        raise refuse(path, "this is an older edition of the library, which does not fit") from None
    for index in range(lib.bite_input_count()):
        entry = lib.bite_input_at(index)
        name = ffi.string(entry.name).decode()
        if entry.offset >= ffi.sizeof("bite_cut"):  # of a newer library
            continue
        if entry.offset != ffi.offsetof("bite_cut", name):
            raise refuse(path, f"{name} is at byte {entry.offset} of a bite_cut in the library, "
                         f"at {ffi.offsetof('bite_cut', name)} in this package")
    # A cut without numbers: sizes that do not fit are refused before it is looked at.
    error, result = new_error(), ffi.new("bite_result *")
    result.struct_size = ffi.sizeof("bite_result")
    if lib.bite_cut_pass(cut, result, error) != lib.BITE_MISSING:
        raise refuse(path, "bite_result or bite_error has another size in the library")


def new_error() -> Any:
    error = ffi.new("bite_error *")
    error.struct_size = ffi.sizeof("bite_error")
    return error


def open_library() -> tuple[Any, str]:
    """The library and the path by which it was opened."""
    tried = []
    for path in candidates():
        try:
            lib = ffi.dlopen(path)
        except OSError as error:
            tried.append(str(error).partition(".  Additionally, ")[0])
            continue
        compare(lib, path)
        return lib, path
    raise errors.LibraryFileError(errors.Fault(
        "libcoolbite was not found: " + "; ".join(tried),
        "install it (with PKG_CONFIG_PATH, if its prefix is not a usual one), or set "
        "COOLBITE_LIBRARY to its file"))


lib, path = open_library()
NULL = ffi.NULL


def text(pointer: Any) -> str:
    """A text of the library; "" for NULL."""
    return "" if pointer == NULL else ffi.string(pointer).decode("utf-8", "replace")


def encode(given: Any, key: str) -> bytes:
    """Text for the library, which ends at the first null: none may be inside."""
    if not isinstance(given, str):
        raise TypeError(f"{key}: text is expected, not {type(given).__name__}")
    try:
        encoded = given.encode("utf-8")
    except UnicodeEncodeError:
        raise errors.ArgumentError(errors.Fault(
            "the text holds half of a character (a lone surrogate)", key=key)) from None
    if b"\0" in encoded:
        raise errors.ArgumentError(errors.Fault("the text holds a null character", key=key))
    return encoded


def encode_path(given: Any, key: str) -> bytes:
    """A path for the library."""
    if not isinstance(given, (str, bytes, os.PathLike)):
        raise TypeError(f"{key}: a path is expected, not {type(given).__name__}")
    encoded = os.fsencode(given)
    if not encoded or b"\0" in encoded:
        raise errors.ArgumentError(errors.Fault(
            "the path holds a null character" if encoded else "the path is empty", key=key))
    return encoded


def fault_of(error: Any, key: str = "") -> errors.Fault:
    return errors.Fault(text(error.message), text(error.hint), text(error.key) or key,
                        text(error.file), error.line, error.column)


def check(status: int, error: Any, key: str = "", faults: tuple[errors.Fault, ...] = ()) -> None:
    """Raises the exception of a status that is not BITE_OK."""
    if status != lib.BITE_OK:
        kind = errors.BY_STATUS.get(text(lib.bite_status_name(status)), errors.Error)
        fault = fault_of(error, key)
        if not fault.message:
            fault = errors.Fault(text(lib.bite_status_text(status)), key=key)
        raise kind(fault, faults)


def call(function: Any, *arguments: Any, key: str = "") -> None:
    """Calls a function whose last argument is an error; raises what it reports."""
    error = new_error()
    check(function(*arguments, error), error, key)


def owned(kind: str, new: Any, free: Any, *arguments: Any, parent: Any = None) -> Any:
    """A handle of a _new or _open function, freed with its last user and before its parent."""
    place = ffi.new(f"{kind} **")
    call(new, *arguments, place)
    return collected(place[0], free, parent)


def collected(handle: Any, free: Any, parent: Any) -> Any:
    # The destructor refers to the parent, which it therefore outlives.
    return ffi.gc(handle, lambda pointer, _parent=parent: free(pointer))


class Collector:
    """Receives what a writer of the library writes, or the faults of a file."""

    def __init__(self) -> None:
        self.pieces: list[bytes] = []
        self.faults: list[errors.Fault] = []
        self.raised: BaseException | None = None
        self.handle = ffi.new_handle(self)


def _raised(_kind: Any, error: BaseException, traceback: Any) -> None:
    # An exception (Ctrl-C) inside a callback: the writer stops, and write() raises it again.
    user = traceback.tb_frame.f_locals.get("user") if traceback is not None else None
    if user is not None:
        ffi.from_handle(user).raised = error


@ffi.callback("int(void *, const char *, size_t)", error=1, onerror=_raised)
def sink(user: Any, piece: Any, size: int) -> int:
    ffi.from_handle(user).pieces.append(ffi.buffer(piece, size)[:])
    return 0


@ffi.callback("void(void *, const bite_error *)", onerror=_raised)
def fault_sink(user: Any, fault: Any) -> None:
    ffi.from_handle(user).faults.append(fault_of(fault))


def write(function: Any, *arguments: Any) -> str:
    """What a _write function of the library writes."""
    collector, error = Collector(), new_error()
    status = function(*arguments, sink, collector.handle, error)
    if collector.raised is not None:
        raise collector.raised
    check(status, error)
    return b"".join(collector.pieces).decode("utf-8")


UNITS = {"metric": lib.BITE_METRIC, "inch": lib.BITE_INCH}


def word_of(words: dict[str, int], given: Any, key: str) -> int:
    """The number of a word; an unknown one is refused with all that there are."""
    if given not in words:
        raise errors.UnknownNameError(errors.Fault(
            f"{given!r} is not known; {', '.join(words)} are expected", key=key))
    return words[given]


def style(format_name: str, units: str = "metric", rows: bool = False) -> Any:
    """How something is to be written."""
    made = ffi.new("bite_style *")
    made.struct_size = ffi.sizeof("bite_style")
    made.format = getattr(lib, f"BITE_{format_name.upper()}")
    made.units = word_of(UNITS, units, "units")
    made.all_limits = bool(rows)
    return made


def names(function: Any, count: int) -> tuple[str, ...]:
    return tuple(text(function(index)) for index in range(count))


VERDICTS = names(lib.bite_verdict_name, lib.BITE_UNKNOWN + 1)
VALUES = names(lib.bite_value_name, lib.BITE_VALUE_COUNT)
LIMITS = names(lib.bite_limit_name, lib.BITE_LIMIT_COUNT)
INPUTS = {text(lib.bite_input_at(i).name): i for i in range(lib.bite_input_count())}
