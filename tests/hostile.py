"""Every reader of foreign data by name, and input made to do harm, for ``test_hostile.py`` and ``fuzz/``.

A reader takes bytes and returns issues, or raises an error of this package. :func:`harmless` runs one in a process of
its own with little memory and little time, so that what it costs is measured and a crash is a result.
"""

from __future__ import annotations

import gc
import io
import json
import os
import re
import resource
import signal
import socket
import sys
import tempfile
import time
import zipfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from chordae.errors import ChordaeError
from chordae.formats.opening import open_bytes
from chordae.formats.table import FORMATS
from chordae.intake.build import build
from chordae.intake.crosswalk import read_crosswalk
from chordae.intake.table import read_table
from chordae.issues import Issue

Reader = Callable[[bytes], list[Issue]]

SECONDS = 20
MEMORY = 1536 * 1024 * 1024
SHOWN = "root:x:0:0"
"""What stands in the password file that some of the attacks name."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of an input: the rules of the issues, or the error that stopped it; seconds and MB that it took."""

    rules: tuple[str, ...]
    error: str
    told: str
    seconds: float
    megabytes: int

    @property
    def crashed(self) -> bool:
        """Whether it ended in another way than an issue or an error of this package."""
        return self.error not in ("", "refused")

    @property
    def refused(self) -> bool:
        """Whether something was said of it."""
        return bool(self.rules or self.error)


def _format(name: str) -> Reader:
    return lambda data: open_bytes(data, f"x{(FORMATS[name].suffixes or ('.bin',))[0]}", FORMATS[name])[1]


def _table(name: str) -> Reader:
    def read(data: bytes) -> list[Issue]:
        table, issues = read_table(name, data=data)
        return issues + build(table, _crosswalk()).issues

    return read


def _crosswalk() -> Any:
    head = b"column\tpart\tproperty\tkind\nno\tspecimen\taccession\tidentifier\n"
    return read_crosswalk("columns.tsv", None, data=(head, None))[0]


def _columns(data: bytes) -> list[Issue]:
    return read_crosswalk("columns.tsv", None, data=(data, None))[1]


def _values(data: bytes) -> list[Issue]:
    head = b"column\tpart\tproperty\tkind\nno\tspecimen\taccession\tidentifier\nx\t\t\tvalue\n"
    return read_crosswalk("columns.tsv", "values.tsv", data=(head, data))[1]


def _on_disk(name: str, read: Callable[[Path], list[Issue]]) -> Reader:
    def run(data: bytes) -> list[Issue]:
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / name
            path.write_bytes(data)
            return read(path)

    return run


def _collection(path: Path) -> list[Issue]:
    from chordae.exchange.catalogue import find_catalogue

    (path.parent / "catalogue.csv").write_bytes(b"no\n1\n")
    (path.parent / "columns.tsv").write_bytes(b"column\tpart\tproperty\tkind\nno\tspecimen\taccession\tidentifier\n")
    find_catalogue(path.parent)
    return []


def _profile(data: bytes) -> list[Issue]:
    from chordae.shapes.profile_file import parse_profile

    return parse_profile(data, "profile.yaml")[1]


def _registry_profile(data: bytes) -> list[Issue]:
    from chordae.registry.profile import parse_profile

    parse_profile(data, "registry.yaml")
    return []


def _archive(path: Path) -> list[Issue]:
    from chordae.registry.package import unpack

    unpack(path, path.parent / "out")
    return []


def _ontology(name: str) -> Reader:
    def read(path: Path) -> list[Issue]:
        from chordae.match.ontology import load_ontology

        load_ontology(str(path))
        return []

    return _on_disk(name, read)


def _words(name: str) -> Reader:
    def read(path: Path) -> list[Issue]:
        from chordae.match.local import read_list

        read_list(str(path))
        return []

    return _on_disk(name, read)


def _digest(data: bytes) -> list[Issue]:
    from chordae.rdf.canonical import digest

    digest(data, "nquads", limit=2.0)
    return []


def _deposit(inner: str) -> Callable[[Path], list[Issue]]:
    def read(path: Path) -> list[Issue]:
        from chordae.deposit.verify import verify

        folder = path.parent
        (folder / "data").mkdir()
        for name, text in (("bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"), ("data/a", "a")):
            (folder / name).write_text(text, encoding="utf-8")
        target = folder / inner
        path.rename(target)
        return verify(folder)

    return read


READERS: dict[str, Reader] = {
    **{name: _format(name) for name, one in FORMATS.items() if one.reads},
    "csv table": _table("x.csv"),
    "xlsx table": _table("x.xlsx"),
    "columns.tsv": _columns,
    "values.tsv": _values,
    "collection.yaml": _on_disk("collection.yaml", _collection),
    "profile": _profile,
    "registry profile": _registry_profile,
    "registry archive": _on_disk("x.zip", _archive),
    **{
        f"ontology {ending}": _ontology(f"x.{ending}")
        for ending in ("obo", "json", "owl", "ttl", "nt", "jsonld", "trig")
    },
    **{f"words {ending}": _words(f"x.{ending}") for ending in ("txt", "json", "csv", "tsv")},
    "digest": _digest,
    **{
        f"deposit {inner}": _on_disk("given", _deposit(inner))
        for inner in (
            *("bagit.txt", "bag-info.txt", "manifest-sha256.txt", "tagmanifest-sha256.txt"),
            *("data/records.ndjson", "data/report.json", "data/versions.json"),
        )
    },
}
"""Name -> reader. Every format of the table that is read is in it, so a new one is tried without being named here."""


def harmless(
    read: Reader, inputs: Iterable[tuple[str, bytes]], seconds: int = SECONDS, memory: int = MEMORY
) -> dict[str, Outcome]:
    """Run a reader over named inputs in a process of its own, which may open no socket.

    Parameters
    ----------
    seconds, memory
        Processor seconds that one input may take, and bytes that the process may ask for beyond what it has.

    Returns
    -------
    dict[str, Outcome]
        For each input. Where the process was ended, the rest is run in another one.
    """
    waiting = list(inputs)
    found: dict[str, Outcome] = {}
    while waiting:
        said, status = _in_child(read, waiting, seconds, memory)
        found.update(said)
        waiting = waiting[len(said) :]
        if waiting:
            name, _ = waiting.pop(0)
            found[name] = Outcome((), f"ended by signal {status & 127}", "", float(seconds), 0)
    return found


def _in_child(
    read: Reader, inputs: list[tuple[str, bytes]], seconds: int, memory: int
) -> tuple[dict[str, Outcome], int]:
    ours, theirs = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(ours)
            signal.signal(signal.SIGALRM, signal.SIG_DFL)
            gc.freeze()  # what the parent has made is not looked at again and again
            socket.socket = _Forbidden  # type: ignore[assignment,misc]  # the point: nothing may reach the network
            used = _pages()
            resource.setrlimit(resource.RLIMIT_AS, (used + memory, used + memory))
            with os.fdopen(theirs, "w", encoding="utf-8") as stream:
                for name, data in inputs:
                    spent = int(time.process_time())
                    resource.setrlimit(resource.RLIMIT_CPU, (spent + seconds, resource.RLIM_INFINITY))
                    signal.alarm(10 * seconds)  # one that waits spends no processor seconds; SIGALRM ends it
                    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
                    told = _attempt(read, data)
                    told["megabytes"] = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) // 1024
                    stream.write(json.dumps([name, told]) + "\n")
                    stream.flush()
        finally:
            os._exit(0)
    os.close(theirs)
    with os.fdopen(ours, encoding="utf-8") as stream:
        lines = [json.loads(line) for line in stream]
    _, status = os.waitpid(child, 0)
    return {
        name: Outcome(tuple(one["rules"]), one["error"], one["told"], one["seconds"], one["megabytes"])
        for name, one in lines
    }, status


class _Forbidden:
    def __init__(self, *words: object, **more: object) -> None:
        raise AssertionError("a reader opened a socket")


def _attempt(read: Reader, data: bytes) -> dict[str, Any]:
    begun = time.process_time()
    rules: list[str] = []
    error = told = ""
    try:
        issues = read(data)
        told = "\n".join(json.dumps(one.to_json(), ensure_ascii=False) for one in issues[:2000])
        told.encode()
        rules = sorted({one.rule for one in issues})
    except ChordaeError as fault:
        error, told = "refused", str(fault)
        told.encode()
    except BaseException as fault:
        import traceback

        error, told = type(fault).__name__, traceback.format_exc(limit=-4)
    if SHOWN in told:
        error = "showed a file of this machine"
    told = told.encode("utf-8", "backslashreplace").decode()
    return {"rules": rules, "error": error, "told": told[-2000:], "seconds": time.process_time() - begun}


def _pages() -> int:
    return int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0]) * resource.getpagesize()


# -- attacks ---------------------------------------------------------------------------------------------------------

LAUGHS = (
    '<?xml version="1.0"?>\n<!DOCTYPE x [<!ENTITY a0 "ha">'
    + "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 12))
    + "]>\n<x>&a11;</x>\n"
)
OUTSIDE = '<?xml version="1.0"?>\n<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]>\n<x>&a;</x>\n'
ALIASES = "x0: &x0 [ha, ha, ha, ha, ha, ha, ha, ha, ha, ha]\n" + "".join(
    f"x{n}: &x{n} [{', '.join([f'*x{n - 1}'] * 10)}]\n" for n in range(1, 11)
)


def zipped(files: dict[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    """Return a zip of files; the names are taken as they are."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", method) as package:
        for name, content in files.items():
            package.writestr(zipfile.ZipInfo(name), content, compress_type=method)
    return stream.getvalue()


def linked() -> bytes:
    """Return a zip that holds a symbolic link to the password file."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as package:
        entry = zipfile.ZipInfo("data/records.ndjson")
        entry.external_attr = 0o120777 << 16
        package.writestr(entry, "/etc/passwd")
    return stream.getvalue()


def attacks() -> Iterator[tuple[str, bytes]]:
    """Yield input that is harmful or broken whatever it is read as."""
    yield "nothing", b""
    yield "blanks", b" \n\t\r\n" * 10
    yield "invalid UTF-8", b"no,\xff\xfe\xc3\x28\n\x80\n"
    yield "zero bytes", b"id: a\0b\n\0"
    yield "only zero bytes", b"\0" * 1000
    yield "UTF-16 without a mark", "id: a\n".encode("utf-16-le")
    yield "UTF-16", "id: \ud83d\udc94".encode("utf-16", "surrogatepass")
    yield "half a pair", b'{"id": "\\ud800", "\\udfff": 1}'
    yield "half a pair in keys", b'{"id": "a", "\\ud800": 1, "\\ud800": 2}'
    yield "control signs", b'{"id": "\x1b[2J\x07"}\n'
    yield "escaped control signs", b'{"id": "\\u001b[2J\\u0000"}'
    for name, opening in (
        ("lists", b"["),
        ("objects", b'{"a":'),
        ("braces", b"{"),
        ("dashes", b"- "),
        ("brackets", b"("),
    ):
        yield f"nested {name}", opening * 100_000
        yield f"nested {name} in a record", b'{"id": "a", "x": ' + opening * 100_000
    yield "nested and closed", b"[" * 50_000 + b"]" * 50_000
    yield "nested graphs", b'{"graphs": ' + b'[{"nodes": ' * 10_000
    yield "nested XML", b"<a>" * 100_000
    yield "entities that multiply", LAUGHS.encode()
    yield "an entity outside", OUTSIDE.encode()
    yield "aliases that multiply", ALIASES.encode()
    yield "a huge number", b'{"id": "a", "x": ' + b"9" * 100_000 + b"}"
    yield "a huge exponent", b'{"id": "a", "x": 1e999999999, "y": -1E-' + b"9" * 30 + b"}"
    yield "numbers that are none", b'{"id": "a", "x": NaN, "y": Infinity, "z": -Infinity}'
    yield (
        "a huge number in YAML",
        b"id: a\nx: " + b"9" * 100_000 + b"\ny: 0x" + b"F" * 9000 + b"\nz: 1:2:3:4" + b":5" * 9000,
    )
    yield "dates that are none", b"id: a\nx: 2026-99-99\ny: 0000-00-00T99:99:99Z\n"
    yield "tags", b"id: !!python/object/apply:os.system ['false']\nx: !!binary '===='\ny: !!timestamp x\n"
    yield "one long line", b"x" * 1_000_000
    yield "one long text", b'{"id": "' + b"x" * 1_000_000 + b'"}'
    yield "many lines", b"x\n" * 50_000
    yield "many commas", b"," * 300_000
    yield "many tabs", b"\t" * 300_000
    yield "many quotes", b'"' * 300_000
    yield "many keys", b"{" + b",".join(b'"%d":1' % n for n in range(30_000)) + b"}"
    yield "one key many times", b"{" + b",".join(b'"a":1' for _ in range(30_000)) + b"}"
    yield "many equal ids", b'{"id":"a"}\n' * 20_000
    yield "a context elsewhere", b'{"@context": "https://example.org/c.jsonld", "@id": "https://example.org/a", "x": 1}'
    yield "a context in a file", b'{"@context": "file:///etc/passwd", "@graph": []}'
    yield "an import in a context", b'{"@context": {"@version": 1.1, "@import": "https://example.org/c"}, "id": "a"}'
    yield "a zip that is none", b"PK\x03\x04" + b"\0" * 100
    yield "an empty zip", zipped({})
    yield "a zip bomb", zipped({"xl/workbook.xml": b"<a/>" * 20_000_000})
    yield "a zip of zips", zipped({"a.zip": zipped({"b.zip": zipped({"c": b"0" * 10_000_000})})})
    yield "a zip of many files", zipped({f"f{n}": b"" for n in range(20_000)}, zipfile.ZIP_STORED)
    yield "a zip that leads out", zipped({"../../evil": b"x", "/etc/evil": b"x"})
    yield "a zip that leads out by backslashes", zipped({"..\\..\\evil.csv": b"x"})
    yield "a zip with a link", linked()
    yield "a zip with a file without a name", zipped({"": b"x"})
    yield "a zip packed with LZMA", zipped({"a.csv": b"x,y\n"}, zipfile.ZIP_LZMA)
    greedy = re.sub(
        rb"(?s)\x05\x00\x5d....", b"\x05\x00\x5d\xff\xff\xff\xff", zipped({"a.csv": b"x"}, zipfile.ZIP_LZMA)
    )
    yield "a zip packed with LZMA that asks for 4 GB", greedy
    yield "a gzip", b"\x1f\x8b\x08\x00" + b"\0" * 100
    yield "an old workbook", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 1000


if __name__ == "__main__":
    wanted = set(sys.argv[1:])
    for name, reader in READERS.items():
        if wanted and name not in wanted:
            continue
        for told, found in harmless(reader, attacks()).items():
            mark = "CRASH" if found.crashed else "slow" if found.seconds > 3 or found.megabytes > 300 else ""
            if mark or not found.refused:
                cost = f"{found.seconds:6.2f}s {found.megabytes:5d}MB"
                print(
                    f"{mark or 'said nothing':12} {name:24} {told:30} {cost} {found.error} {found.told[-300:]!r}",
                    flush=True,
                )
