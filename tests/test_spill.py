"""Long lists and many names in files: the same as in memory. Held against Python's own list and dict."""

from __future__ import annotations

import io
import tracemalloc
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from chordae.errors import ChordaeError
from chordae.files import open_input
from chordae.intake.encoding import decode
from chordae.intake.table import read_table
from chordae.intake.text_file import open_text
from chordae.spill import Seen, Spool


def spooled(items: list[tuple[int, str]]) -> Spool[tuple[int, str]]:
    made: Spool[tuple[int, str]] = Spool(list, lambda told: (told[0], told[1]))
    for one in items:
        made.append(one)
    return made


@pytest.mark.parametrize("length", [0, 1, 511, 512, 513, 768, 769, 2000])
def test_a_long_list_is_the_list(length: int) -> None:
    plain = [(number, f"Herz {number} \u00e4") for number in range(length)]
    long = spooled(plain)
    assert (len(long), list(long), list(long)) == (length, plain, plain)
    assert [long[number] for number in range(-length, length)] == [plain[number] for number in range(-length, length)]
    assert long[3:700:9] == plain[3:700:9]
    with pytest.raises(IndexError):
        long[length]
    together = zip(long, long, strict=True)  # two readers at a time
    assert all(one == other for one, other in together)


@given(st.lists(st.tuples(st.text(max_size=3), st.integers(0, 9)), max_size=40))
@settings(max_examples=60, deadline=None)
def test_names_are_known_by_their_first_number(pairs: list[tuple[str, int]]) -> None:
    seen, plain = Seen(), dict[str, int]()
    for name, number in pairs:
        assert seen.get(name) == plain.get(name)
        assert seen.at(name, number) == plain.setdefault(name, number)
    assert len(seen) == len(plain)


@given(
    st.binary(max_size=60) | st.text(max_size=30).flatmap(
        lambda text: st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"]).map(
            lambda codec: text.encode(codec, "replace")
        )
    ),
    st.sampled_from([None, "utf-8", "utf-16", "windows-1252", "latin-1", "utf-7", "no such", "a\0b"]),
    st.booleans(),
)  # fmt: skip
@settings(max_examples=200, deadline=None)
def test_text_read_by_pieces_is_the_text_read_whole(data: bytes, encoding: str | None, guess: bool) -> None:
    """The whole file decoded at once is the reference: the same text and issues, or the same refusal."""

    def pieces() -> tuple[str, object]:
        text, issues = open_text(io.BytesIO(data), "t.csv", encoding=encoding, guess=guess)
        with text.open() as stream:
            found = stream.read()
        assert text.quoted == ('"' in found)
        return found, issues

    def told(read: object) -> object:
        try:
            return read()  # type: ignore[operator] # one of the two functions
        except ChordaeError as error:
            return type(error), error.message, error.hint

    assert told(pieces) == told(lambda: decode(data, "t.csv", encoding=encoding, guess=guess))


def test_a_long_table_is_not_held(tmp_path: Path) -> None:
    """Python's own memory at its highest while 500 and while 6,000 rows are read; each cell is a text of its own."""

    def highest(count: int) -> int:
        path = tmp_path / f"{count}.csv"
        rows = (",".join(f"{row}-{column}" for column in range(30)) for row in range(count))
        path.write_text(",".join(f"c{column}" for column in range(30)) + "\n" + "\n".join(rows) + "\n")
        tracemalloc.start()
        table, issues = read_table(path)
        assert (len(table.rows), issues) == (count, [])
        assert table.rows[count - 1].cells[29] == f"{count - 1}-29"
        size = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        return size

    highest(10)
    assert highest(6000) < highest(500) * 1.15 + 1_000_000


def test_what_can_be_read_once_only_is_copied(tmp_path: Path) -> None:
    import os
    import threading

    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    writer = threading.Thread(target=pipe.write_text, args=("No.,a,b\n1,2,3\n",), daemon=True)
    writer.start()
    with open_input(pipe) as stream:
        assert (stream.read(2), stream.seek(0), stream.read()) == (b"No", 0, b"No.,a,b\n1,2,3\n")
    writer.join(10)
