"""What a command writes: one file or several, to a name or to standard output; and beside it, what was lost.

::

    --out hearts.fhir.json    the file, and hearts.fhir.json.losses.json
    --out hearts/             a folder, for a format of several files; hearts.zip gives a zip of it
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from chordae.errors import FormatError
from chordae.issues import counted

if TYPE_CHECKING:
    from chordae.formats.losses import Carried
    from chordae.formats.settings import Settings
    from chordae.formats.table import Format
    from chordae.record import Record

__all__ = ["losses_path", "put", "tell_losses"]


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


def losses_path(format: Format, out: str | None, asked: str | None) -> str | None:
    """Return where the list of losses goes: where it was asked for, or beside a file that cannot hold everything."""
    if asked is not None:
        return asked
    if out is None or out == "-" or format.lossless:
        return None
    return f"{out.rstrip('/')}.losses.json"


def tell_losses(format: Format, noted: Sequence[tuple[Record, Carried]], out: str | None, path: str) -> None:
    """Write what was carried of each record, read again from what was written where that can be done."""
    from chordae.files import write_aside
    from chordae.formats.losses import loss_report

    again = None
    if format.reads and out is not None and out != "-":
        from chordae.formats.opening import open_path

        readings, _ = open_path(out, format)
        again = {str(one.record.get("id")): one.record for one in readings}
    report = loss_report(format.name, noted, again)
    text = json.dumps(report, ensure_ascii=False, indent=1) + "\n"
    if path == "-":
        sys.stdout.write(text)
    else:
        write_aside(Path(path), text)
    n = report["totals"]
    print(
        f"chordae: of {counted(n['statements'], 'statement')}: carried coded {n['coded']:,}, as words {n['text']:,}, "
        f"dropped {n['dropped']:,}; see {path}",
        file=sys.stderr,
    )
