"""Files read whole and with a limit, and files written aside and then renamed.

Nothing half-written is left under its final name: a run that is interrupted leaves the old file, or none.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from chordae.errors import InputError

__all__ = [
    "MAX_CELL",
    "MAX_DEPTH",
    "MAX_INPUT",
    "MAX_UNPACKED",
    "STDIN",
    "folder_aside",
    "inside",
    "leads_out",
    "open_aside",
    "read_input",
    "write_aside",
]

MAX_INPUT = 512 * 1024 * 1024
"""Largest file read, in bytes."""
MAX_UNPACKED = 256 * 1024 * 1024
"""Largest size of a workbook once unpacked, in bytes."""
MAX_CELL = 32_767
"""Longest cell taken over, in characters: the limit of a spreadsheet cell."""
MAX_DEPTH = 40
"""Deepest nesting of lists and mappings in a record."""
STDIN = "-"


def read_input(source: str | os.PathLike[str], limit: int = MAX_INPUT) -> bytes:
    """Read a whole file, or standard input for ``-``.

    Raises
    ------
    InputError
        The file is missing, is a folder, may not be read, or is longer than ``limit`` bytes.
    """
    if os.fspath(source) == STDIN:
        data = sys.stdin.buffer.read(limit + 1)
        name = "standard input"
    else:
        path = Path(source)
        name = str(path)
        try:
            with path.open("rb") as stream:
                data = stream.read(limit + 1)
        except FileNotFoundError:
            raise InputError(f"There is no file {name}.", "Look at the name and the folder.") from None
        except IsADirectoryError:
            raise InputError(f"{name} is a folder, not a file.", "Name one file in it.") from None
        except (OSError, ValueError) as error:
            reason = getattr(error, "strerror", None) or str(error)
            raise InputError(f"The file {name!r} cannot be read: {reason}.") from None
    if len(data) > limit:
        raise InputError(
            f"{name} is longer than {limit // 1024 // 1024} MB.",
            "Split it, and read the pieces one after another.",
        )
    return data


def write_aside(path: str | os.PathLike[str], data: bytes | str) -> None:
    """Write a whole file beside its place and rename it; text is written as UTF-8 with its own newlines."""
    with open_aside(path) as stream:
        stream.write(data.encode() if isinstance(data, str) else data)


@contextmanager
def open_aside(path: str | os.PathLike[str]) -> Iterator[IO[bytes]]:
    """Open a file for binary writing that takes its name only when the block ends without an error.

    A link stays a link: the file that it points to is written. A device or a pipe is no file that could be half
    written: it is written to as it is, and never replaced.

    Raises
    ------
    InputError
        The folder is missing or may not be written, or the path is a folder.
    """
    try:
        final = Path(path).resolve() if Path(path).is_symlink() else Path(path)
        if final.is_dir():
            raise InputError(f"{path} is a folder, not a file.", "Name a file in it.")
        device = final.exists() and not final.is_file()
        handle, name = (
            (os.open(final, os.O_WRONLY), "")
            if device
            else tempfile.mkstemp(prefix=f".{final.name[:40]}.", suffix=".part", dir=final.parent)
        )
    except (OSError, RuntimeError, ValueError) as error:  # a link to itself, a name with a zero byte
        raise _unwritable(path, error) from None
    aside = Path(name) if name else None
    try:
        with os.fdopen(handle, "wb") as stream:
            yield stream
        if aside is not None:
            aside.chmod(0o666 & ~_umask())
            aside.replace(final)
    except BaseException as error:
        if aside is not None:
            aside.unlink(missing_ok=True)
        if isinstance(error, OSError) and not isinstance(error, BrokenPipeError):
            raise _unwritable(path, error) from None
        raise


def _unwritable(path: str | os.PathLike[str], error: Exception) -> InputError:
    reason = getattr(error, "strerror", None) or "this cannot be the name of a file"
    return InputError(f"{path} cannot be written: {reason}.", "Name another file or folder.")


@contextmanager
def folder_aside(path: str | os.PathLike[str], *, replace: bool = False) -> Iterator[Path]:
    """Yield an empty folder that takes the name ``path`` only when the block ends without an error.

    Parameters
    ----------
    path
        The final name.
    replace
        Whether a folder of that name that is not empty may be replaced.

    Raises
    ------
    InputError
        There is something at ``path`` already, or the folder above it is missing or may not be written.
    """
    final = Path(path).absolute()
    filled = final.exists() and (not final.is_dir() or any(final.iterdir()))
    if filled and not (replace and final.is_dir()):
        raise InputError(f"{path} is there already and is not empty.", "Name a new folder.")
    try:
        final.parent.mkdir(parents=True, exist_ok=True)
        aside = Path(tempfile.mkdtemp(prefix=f".{final.name[:40]}.", suffix=".part", dir=final.parent))
    except OSError as error:
        raise InputError(f"{path} cannot be written: {error.strerror}.") from None
    try:
        yield aside
        aside.chmod(0o777 & ~_umask())
        if final.exists():
            old = aside.with_suffix(".old")
            final.rename(old)
            aside.rename(final)
            shutil.rmtree(old, ignore_errors=True)
        else:
            aside.rename(final)
    except BaseException:
        shutil.rmtree(aside, ignore_errors=True)
        raise


def inside(root: str | os.PathLike[str], candidate: str | os.PathLike[str]) -> Path:
    """Return the path of ``candidate`` under ``root``, and refuse one that leads out of it.

    Parameters
    ----------
    root
        A folder.
    candidate
        A path relative to it, as found in someone's file: not trusted.

    Raises
    ------
    InputError
        The path is absolute, goes up and out, or goes out through a link.

    Examples
    --------
    >>> inside("/deposit", "data/records.ndjson").as_posix()
    '/deposit/data/records.ndjson'
    """
    text = os.fspath(candidate)
    base = Path(root).resolve()
    refused = InputError(f"The path {text!r} leads out of the folder {root}.", "Use a path inside it.")
    if "\0" in text or "\\" in text or Path(text).is_absolute():
        raise refused
    try:
        found = (base / text).resolve()
    except (OSError, RuntimeError):
        raise refused from None
    if found != base and base not in found.parents:
        raise refused
    return found


def leads_out(path: str) -> bool:
    """Say whether a path, by its words alone, leads out of the folder that it is relative to; links are not looked at.

    Examples
    --------
    >>> leads_out("data/../records.ndjson"), leads_out("data/../../x"), leads_out("/etc/passwd")
    (False, True, True)
    """
    if "\0" in path or "\\" in path or path.startswith(("/", "~")):
        return True
    depth = 0
    for part in path.split("/"):
        depth += {"..": -1, ".": 0, "": 0}.get(part, 1)
        if depth < 0:
            return True
    return False


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
