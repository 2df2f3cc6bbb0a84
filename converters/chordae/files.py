"""Files read whole and with a limit, and files written aside and then renamed.

Nothing half-written is left under its final name: a run that is interrupted leaves the old file, or none.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
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
    "open_input",
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
_BLOCK = 1024 * 1024


def read_input(source: str | os.PathLike[str], limit: int = MAX_INPUT) -> bytes:
    """Read a whole file, or standard input for ``-``.

    Raises
    ------
    InputError
        The file is missing, is a folder, may not be read, or is longer than ``limit`` bytes.
    """
    if os.fspath(source) == STDIN:
        data = sys.stdin.buffer.read(limit + 1)
    else:
        try:
            with Path(source).open("rb") as stream:
                # a file that says its size is read with it, so that no room is made for the longest one
                told = min(limit, os.fstat(stream.fileno()).st_size)
                data = stream.read(told + 1)
                data += b"" if len(data) == told else stream.read(limit + 1 - len(data))
        except (OSError, ValueError) as error:
            raise _unreadable(source, error) from None
    if len(data) > limit:
        raise _too_long(source, limit)
    return data


@contextmanager
def open_input(source: str | os.PathLike[str], limit: int = MAX_INPUT) -> Iterator[IO[bytes]]:
    """Open a file, or standard input for ``-``, to be read from its beginning as often as wanted.

    What can be read only once, such as a pipe, is copied into a file without a name first.

    Raises
    ------
    InputError
        As for :func:`read_input`.
    """
    with ExitStack() as stack:
        if os.fspath(source) == STDIN:
            stream: IO[bytes] = sys.stdin.buffer
        else:
            try:
                stream = stack.enter_context(Path(source).open("rb"))
            except (OSError, ValueError) as error:
                raise _unreadable(source, error) from None
            if stream.seekable():
                if os.fstat(stream.fileno()).st_size > limit:
                    raise _too_long(source, limit)
                yield stream
                return
        kept = stack.enter_context(tempfile.TemporaryFile(prefix="chordae-"))
        while block := stream.read(_BLOCK):
            if kept.tell() + len(block) > limit:
                raise _too_long(source, limit)
            kept.write(block)
        kept.seek(0)
        yield kept


def _unreadable(source: str | os.PathLike[str], error: Exception) -> InputError:
    name = str(Path(source))
    if isinstance(error, FileNotFoundError):
        return InputError(f"There is no file {name}.", "Look at the name and the folder.")
    if isinstance(error, IsADirectoryError):
        return InputError(f"{name} is a folder, not a file.", "Name one file in it.")
    reason = getattr(error, "strerror", None) or str(error)
    return InputError(f"The file {name!r} cannot be read: {reason}.")


def _too_long(source: str | os.PathLike[str], limit: int) -> InputError:
    return InputError(
        f"{'standard input' if os.fspath(source) == STDIN else Path(source)} is longer than "
        f"{limit // 1024 // 1024} MB.",
        "Split it, and read the pieces one after another.",
    )


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
        aside.chmod(0o777 & ~_umask())  # whatever is made in it, others may read as they may read any new folder
    except OSError as error:
        raise InputError(f"{path} cannot be written: {error.strerror}.") from None
    try:
        yield aside
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
