"""From a folder of finished files to a sealed package: the files move under ``data/``, digests are taken.

The bytes depend only on the files and on what is said of the package. The date of packing is written only
when ``SOURCE_DATE_EPOCH`` gives it, so that the same catalogue gives the same package on any day.
"""

from __future__ import annotations

import logging
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

import bagit

from chordae.errors import InputError
from chordae.resources import VERSION

__all__ = ["ALGORITHM", "quiet_bagit", "seal"]

ALGORITHM = "sha256"
_BAGIT_TXT = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"


def seal(folder: Path, info: Mapping[str, str], readme: str) -> None:
    """Turn a folder into a BagIt package in place.

    Parameters
    ----------
    folder
        Holds the payload; everything in it moves to ``folder/data``.
    info
        Fields of ``bag-info.txt``, for example ``{"Source-Organization": "..."}``; empty values are left out.
    readme
        Text of ``README.txt``, which stands beside ``data``.

    Raises
    ------
    InputError
        The folder cannot be packed, for example because a file in it may not be read.
    """
    fields = {key: " ".join(text.split()) for key, text in info.items() if text.strip()}
    fields["Bag-Software-Agent"] = f"chordae {VERSION} with bagit.py {bagit.VERSION}"
    packed_on = _packed_on()
    fields["Bagging-Date"] = packed_on or ""
    try:
        with quiet_bagit():
            bag = bagit.make_bag(str(folder), fields, checksums=[ALGORITHM])
            if packed_on is None:
                del bag.info["Bagging-Date"]
            # The library writes 0.97; the files it writes are those of 1.0 (RFC 8493, section 2.1).
            (folder / "bagit.txt").write_text(_BAGIT_TXT, encoding="utf-8", newline="\n")
            (folder / "README.txt").write_text(readme, encoding="utf-8", newline="\n")
            bag.save()
    except (bagit.BagError, OSError) as error:
        raise InputError(f"The folder cannot be packed: {error}.") from None


@contextmanager
def quiet_bagit() -> Iterator[None]:
    """Keep the library from writing to standard error while the block runs; what it raises is enough."""
    log = logging.getLogger("bagit")
    before = log.disabled
    log.disabled = True
    try:
        yield
    finally:
        log.disabled = before


def _packed_on() -> str | None:
    """Return the day given by ``SOURCE_DATE_EPOCH`` (seconds since 1970, UTC), if it gives one."""
    try:
        seconds = int(os.environ.get("SOURCE_DATE_EPOCH", ""))
        return datetime.fromtimestamp(seconds, UTC).date().isoformat()
    except (ValueError, OverflowError, OSError):
        return None
