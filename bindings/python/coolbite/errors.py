# SPDX-License-Identifier: GPL-3.0-or-later
"""What can go wrong: a class for each status of the library.

Each is also an exception of Python's own where one fits, so that ``except ValueError`` and
``except LookupError`` catch what they should.
"""
from __future__ import annotations

import dataclasses
from typing import Any


@dataclasses.dataclass(frozen=True)
class Fault:
    """One fault of a file, or of an argument."""

    message: str
    """What is wrong, and what was expected."""
    hint: str = ""
    """What to do: the nearest name, the likely mistake; "" if there is none."""
    key: str = ""
    """The "section:key", or the name of the argument; ""."""
    file: str = ""
    """The path of the file; ""."""
    line: int = 0
    """From 1; 0: no line."""
    column: int = 0
    """From 1, in bytes; 0: no column."""

    def __str__(self) -> str:
        place = self.file + (f":{self.line}" if self.line else "")
        before = ": ".join(part for part in (place, self.key) if part)
        text = f"{before}: {self.message}" if before else self.message
        return f"{text} ({self.hint})" if self.hint else text


class Error(Exception):
    """An error of the library. ``str()`` of it says where, what, and what to do."""

    status = "BITE_FAULT"
    """The name of the status in C."""

    def __init__(self, fault: Fault | str, faults: tuple[Fault, ...] = ()) -> None:
        first = Fault(fault) if isinstance(fault, str) else fault
        super().__init__(str(first))
        self.fault = first
        self.faults = faults or (first,)

    @property
    def message(self) -> str:
        """What is wrong, and what was expected."""
        return self.fault.message

    @property
    def hint(self) -> str:
        """What to do: the nearest name, the likely mistake; ""."""
        return self.fault.hint

    @property
    def key(self) -> str:
        """The "section:key", or the name of the argument; ""."""
        return self.fault.key

    @property
    def file(self) -> str:
        """The file at fault; ""."""
        return self.fault.file

    @property
    def line(self) -> int:
        """Its line, from 1; 0: none."""
        return self.fault.line

    @property
    def column(self) -> int:
        """Its column, from 1, in bytes; 0: none."""
        return self.fault.column

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)

    def __reduce__(self) -> tuple[Any, ...]:
        return type(self), (self.fault, self.faults)


class NoMemoryError(Error, MemoryError):
    """The allocator returned NULL; nothing was done in part."""

    status = "BITE_NO_MEMORY"


class ArgumentError(Error, ValueError):
    """An argument that the library cannot take."""

    status = "BITE_BAD_ARGUMENT"


class QuantityError(Error, ValueError):
    """Text that is not a quantity, or has no unit, or the wrong one."""

    status = "BITE_BAD_QUANTITY"


class RangeError(Error, ValueError):
    """Outside anything a shop runs; the hint names the likely mistake."""

    status = "BITE_OUT_OF_RANGE"


class MissingError(Error, ValueError):
    """An input without which there is no answer."""

    status = "BITE_MISSING"


class UnknownNameError(Error, LookupError):
    """No such material, tool, input; the hint names the nearest one."""

    status = "BITE_UNKNOWN_NAME"


class MissingFileError(Error, FileNotFoundError):
    """No such file or folder."""

    status = "BITE_NOT_FOUND"


class FileFormatError(Error, ValueError):
    """A table, job or record that breaks the rules of its format; ``faults`` has every fault."""

    status = "BITE_BAD_FILE"


class UnsafeError(Error):
    """A plugin or a table that another user could have placed there."""

    status = "BITE_UNSAFE"


class PluginError(Error):
    """A plugin with another ABI, without an entry point, or that failed its own check."""

    status = "BITE_BAD_PLUGIN"


class WriteError(Error, OSError):
    """The target cannot be written and is unchanged."""

    status = "BITE_CANNOT_WRITE"


class InputOutputError(Error, OSError):
    """Reading or writing failed partway."""

    status = "BITE_IO"


class BusyError(Error, OSError):
    """A record that another program is using."""

    status = "BITE_BUSY"


class NoAnswerError(Error):
    """The physics does not cover these inputs; reported, not guessed."""

    status = "BITE_NO_ANSWER"


class LibraryFault(Error):
    """A fault in the library; please report it."""

    status = "BITE_FAULT"


class StoppedError(Error):
    """The caller asked to stop."""

    status = "BITE_STOPPED"


class LibraryFileError(Error, ImportError):
    """The shared library is not found, or does not fit this package."""

    status = "BITE_NOT_FOUND"


BY_STATUS = {
    kind.status: kind
    for kind in (NoMemoryError, ArgumentError, QuantityError, RangeError, MissingError,
                 UnknownNameError, MissingFileError, FileFormatError, UnsafeError, PluginError,
                 WriteError, InputOutputError, BusyError, NoAnswerError, LibraryFault,
                 StoppedError)
}
"""The class for the name of a status."""
