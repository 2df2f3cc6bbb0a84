"""What a command writes: one file or several, to a name or to standard output; and beside it, what was lost.

::

    --out hearts.fhir.json    the file, and hearts.fhir.json.losses.json: what was carried of every record
    --out hearts/             a folder, for a format of several files; hearts.zip gives a zip of it
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from chordae.errors import FormatError
from chordae.files import write_aside
from chordae.formats.losses import Carried, Report, confirm, count_losses, loss_report
from chordae.issues import counted

if TYPE_CHECKING:
    from chordae.formats.settings import Settings
    from chordae.formats.table import Format
    from chordae.record import Record

__all__ = ["Losses", "losses_path", "put"]


def put(format: Format, content: Iterable[Any], settings: Settings, out: str | None) -> None:
    """Write what a format makes of its content.

    Parameters
    ----------
    content
        Records with what was derived from them; mapping sets; releases: whatever the format holds.
    out
        Name of a file, folder or zip; standard output for ``None`` and ``-``.

    Raises
    ------
    FormatError
        Several files were to be shown on a terminal.
    InputError
        The place may not be written.
    """
    module = format.load()
    to_stdout = out is None or out == "-"
    if format.several:
        from chordae.formats.packing import pack, write_several

        if to_stdout and sys.stdout.isatty():
            raise FormatError(f"{format.label} is several files.", "Name a folder, or a zip, with --out.")
        files = module.write_files(content, settings)
        if to_stdout:
            sys.stdout.buffer.write(pack(files))
            sys.stdout.buffer.flush()
        else:
            write_several(str(out), files)
        return
    pieces = module.write(content, settings)
    if to_stdout:
        for piece in pieces:
            sys.stdout.buffer.write(piece)
        sys.stdout.buffer.flush()
        return
    from chordae.files import open_aside

    with open_aside(str(out)) as stream:
        for piece in pieces:
            stream.write(piece)


def losses_path(out: str | None, asked: str | None) -> str | None:
    """Return where the list of losses goes: where it was asked for, or beside the file that is written."""
    if asked is not None or out is None or out == "-":
        return asked
    return f"{out.rstrip('/')}.losses.json"


class Losses:
    """What was carried of the records that a command writes, held against what can be read again.

    A format that holds everything is read again record by record while it is written, so that an export of any length
    can be told; any other one is read again as a whole, and its records are kept until then.
    """

    def __init__(self, format: Format, settings: Settings) -> None:
        self._format, self._settings = format, settings
        self._kept: list[tuple[Record, Carried]] = []
        self._report = Report(format.name, "by reading each record again")

    def note(self, record: Record, carried: Carried) -> None:
        """Take in what the writer marked of one record."""
        if not self._format.lossless:
            self._kept.append((record, carried))
            return
        module = self._format.load()
        data = b"".join(module.write([(record, None)], self._settings))
        readings, _ = module.read(data, str(record.get("id")), self._format.name)
        again = readings[0].record if len(readings) == 1 else None
        told = carried if again == record else confirm(record, carried, again)
        self._report.add(count_losses(record, self._format.name, told))

    def tell(self, out: str | None, path: str) -> None:
        """Write the list, and say on standard error how much was lost, if anything was."""
        report = self._report.to_json() if self._format.lossless else loss_report(*self._read(out))
        text = json.dumps(report, ensure_ascii=False, indent=1) + "\n"
        if path == "-":
            sys.stdout.write(text)
        else:
            write_aside(Path(path), text)
        n = report["totals"]
        if n["coded"] < n["statements"]:
            print(
                f"chordae: of {counted(n['statements'], 'statement')}: carried coded {n['coded']:,}, as words "
                f"{n['text']:,}, dropped {n['dropped']:,}; see {path}",
                file=sys.stderr,
            )

    def _read(self, out: str | None) -> tuple[str, list[tuple[Record, Carried]], dict[str, Record] | None]:
        again = None
        if self._format.reads and out is not None and out != "-":
            from chordae.formats.opening import open_path

            readings, _ = open_path(out, self._format)
            again = {str(one.record.get("id")): one.record for one in readings}
        return self._format.name, self._kept, again
