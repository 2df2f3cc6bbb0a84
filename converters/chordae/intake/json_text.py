"""From JSON or NDJSON text to the records in it, each with the line and column of every value.

The values come from the standard library's parser. The places are worked out by a scan of the record's own
text, and only when one is asked for: a record without faults costs no scan. Records stand as the items of a
list, as one object, as the list under ``records``, or one a line (NDJSON). In NDJSON a broken line costs
that line only.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Generator, Iterable, Iterator, Mapping
from typing import Any

from chordae.files import MAX_DEPTH
from chordae.intake.found import Fault, Found, Mark, pointer
from chordae.intake.json_places import Lines, scan
from chordae.intake.scalars import exact_number
from chordae.intake.yaml_text import RECORDS
from chordae.issues import shown

__all__ = ["find_lines", "find_records", "find_value"]

_SPACE = re.compile(r"[ \t\n\r]*")


class _Inexact(str):
    """The text of a number that cannot be kept exactly."""


class _Twice(dict[str, Any]):
    """An object in which a key stands more than once; ``left_out`` are the later pairs."""

    left_out: list[tuple[str, Any]]


def find_records(text: str) -> Iterator[Found]:
    """Yield what stands where a record should in one JSON text, in its order.

    Yields
    ------
    Found
        The last one is refused and holds the fault ``I-DOC-01`` if the text is not well formed.
    """
    parser = _Parser()
    lines = Lines(text)
    at = _skip_space(text, 0)
    try:
        if text.startswith("[", at):
            end = yield from _list(parser, text, at, lines)
        else:
            value, end = parser.parse(text, at)
            yield from _top(parser, value, text, at, lines)
        rest = _skip_space(text, end)
        if rest != len(text):
            raise json.JSONDecodeError("there is more text after the end", text, rest)
    except json.JSONDecodeError as error:
        yield _broken(error.msg, lines(error.pos))
    except RecursionError:
        yield _too_deep(lines(at))


def find_value(text: str) -> Found:
    """Return what one JSON text holds, whatever it is; refused if it is not well formed."""
    parser = _Parser()
    lines = Lines(text)
    at = _skip_space(text, 0)
    try:
        value, end = parser.parse(text, at)
        if (rest := _skip_space(text, end)) != len(text):
            raise json.JSONDecodeError("there is more text after the end", text, rest)
    except json.JSONDecodeError as error:
        return _broken(error.msg, lines(error.pos))
    except RecursionError:
        return _too_deep(lines(at))
    return _found(parser, value, text, at, lines)


def find_lines(lines: Iterable[str | bytes], first: int = 1) -> Iterator[Found]:
    """Yield what stands where a record should in NDJSON, one a line; empty lines are passed over.

    Parameters
    ----------
    lines
        The lines, with or without their ends; bytes are UTF-8. May be a stream: one line at a time is held.
    first
        Number of the first line.
    """
    parser = _Parser()
    for number, raw in enumerate(lines, first):
        try:
            line = raw.decode() if isinstance(raw, bytes) else raw
        except UnicodeDecodeError as error:
            yield _broken(f"byte {error.start + 1} is not valid UTF-8", (number, 1), "NDJSON")
            continue
        text = (line.removeprefix("\ufeff") if number == first else line).rstrip("\r\n")
        if not text.strip():
            continue
        place = Lines(text, number)
        start = _skip_space(text, 0)
        try:
            value, end = parser.parse(text, start)
            if _skip_space(text, end) != len(text):
                raise json.JSONDecodeError("there is more text after the end of the record", text, end)
        except json.JSONDecodeError as error:
            yield _broken(error.msg, place(error.pos), "NDJSON")
        except RecursionError:
            yield _too_deep(place(0))
        else:
            yield _found(parser, value, text, start, place)


class _Parser:
    """The standard library's parser with notes on numbers and keys; ``noted``: a value needs a look."""

    def __init__(self) -> None:
        self.noted = False
        self._decoder = json.JSONDecoder(
            object_pairs_hook=self._object,
            parse_float=self._number,
            parse_int=self._number,
            parse_constant=self._constant,
        )

    def parse(self, text: str, at: int) -> tuple[Any, int]:
        return self._decoder.raw_decode(text, at)

    def _object(self, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(pairs)
        if len(found) == len(pairs):
            return found
        self.noted = True
        twice = _Twice()
        twice.left_out = []
        for key, value in pairs:
            if key in twice:
                twice.left_out.append((key, value))
            else:
                twice[key] = value
        return twice

    def _number(self, text: str) -> Any:
        try:
            return exact_number(text)
        except ValueError:
            self.noted = True
            return _Inexact(text)

    def _constant(self, name: str) -> Any:
        self.noted = True
        return _Inexact(name)


def _list(parser: _Parser, text: str, at: int, lines: Lines) -> Generator[Found, None, int]:
    at = _skip_space(text, at + 1)
    if text.startswith("]", at):
        return at + 1
    while True:
        value, end = parser.parse(text, at)
        yield _found(parser, value, text, at, lines)
        at = _skip_space(text, end)
        if text.startswith("]", at):
            return at + 1
        if not text.startswith(",", at):
            raise json.JSONDecodeError("a comma or a closing bracket was expected", text, at)
        at = _skip_space(text, at + 1)


def _top(parser: _Parser, value: Any, text: str, at: int, lines: Lines) -> Iterator[Found]:
    whole = _found(parser, value, text, at, lines)
    items = whole.value.get(RECORDS) if isinstance(whole.value, dict) else None
    if not isinstance(items, list):
        yield whole
        return
    for number, item in enumerate(items):
        prefix = f"/{RECORDS}/{number}"
        inner = [_under(prefix, one) for one in whole.faults if f"{one.path}/".startswith(f"{prefix}/")]
        mark = whole.marks().get(prefix, whole.mark)
        yield Found(item, mark, _sub_marks(whole.marks, prefix), inner, whole.refused)
    outer = [one for one in whole.faults if not one.path.startswith(f"/{RECORDS}/")]
    others = ", ".join(key for key in whole.value if key != RECORDS)
    if others:
        outer.append(Fault("I-DOC-11", whole.mark, "", others))
    if outer:
        yield Found(None, whole.mark, dict, outer, refused=True)


def _under(prefix: str, fault: Fault) -> Fault:
    return Fault(fault.rule, fault.mark, fault.path[len(prefix) :], fault.value, fault.fields)


def _sub_marks(marks: Callable[[], Mapping[str, Mark]], prefix: str) -> Callable[[], Mapping[str, Mark]]:
    cut = len(prefix)
    return lambda: {key[cut:]: mark for key, mark in marks().items() if key == prefix or key.startswith(f"{prefix}/")}


def _found(parser: _Parser, value: Any, text: str, at: int, lines: Lines) -> Found:
    kept: dict[str, Mark] = {}

    def marks() -> Mapping[str, Mark]:
        if not kept:
            kept.update(scan(text, at, lines))
        return kept

    found = Found(value, lines(at), marks)
    if parser.noted:
        parser.noted = False
        found.value = _look(value, "", found)
    return found


def _look(value: Any, path: str, found: Found) -> Any:
    """Replace the parser's notes by plain values, and write a fault for each."""
    if isinstance(value, _Inexact):
        found.faults.append(Fault("I-DOC-06", found.marks().get(path, found.mark), path, str(value)))
        return str(value)
    if isinstance(value, list):
        return [_look(one, pointer(path, number), found) for number, one in enumerate(value)]
    if isinstance(value, dict):
        if isinstance(value, _Twice):
            for key, later in value.left_out:
                where = pointer(path, key)
                fields = {"key": key, "first": shown(value[key], 40)}
                mark = found.marks().get(where, found.mark)
                found.faults.append(Fault("I-DOC-03", mark, where, shown(later, 40), fields))
        return {key: _look(one, pointer(path, key), found) for key, one in value.items()}
    return value


def _skip_space(text: str, at: int) -> int:
    found = _SPACE.match(text, at)
    return found.end() if found else at


def _broken(problem: str, mark: Mark, form: str = "JSON") -> Found:
    words = problem[:1].lower() + problem[1:]
    fault = Fault("I-DOC-01", mark, fields={"format": form, "problem": words})
    return Found(None, mark, dict, [fault], refused=True)


def _too_deep(mark: Mark) -> Found:
    return Found(None, mark, dict, [Fault("I-DOC-04", mark, fields={"limit": MAX_DEPTH})], refused=True)
