"""Spoilt input: whatever is cut out of sound input and put in its place, a reader gives issues or an error of ours.

Bounded: a fixed number of inputs for each reader. ``fuzz_readers.py`` goes on for as long as it is told, guided by what
the code does with each input (atheris).
"""

from __future__ import annotations

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from seeds import TOKENS, harmful, seeds, wrap

from chordae.errors import ChordaeError
from hostile import READERS

EXAMPLES = 50
JUNK = st.lists(st.sampled_from(TOKENS) | st.binary(max_size=4), max_size=4).map(b"".join)


@st.composite
def spoilt(draw: st.DrawFn, reader: str) -> bytes:
    data = draw(st.sampled_from(seeds(reader)))
    if draw(st.integers(0, 9)) == 0:
        data = data[:1] + draw(st.sampled_from(harmful()))
    for _ in range(draw(st.integers(1, 4))):
        # Near the start and near the end faults weigh most; a place anywhere is a share of the length.
        at = draw(st.integers(0, 200) | st.integers(0, len(data)))
        data = data[:at] + draw(JUNK) + data[at + draw(st.integers(0, 12)) :]
    if draw(st.booleans()):
        data = data[: draw(st.integers(0, len(data)))]
    return data


@pytest.mark.parametrize("reader", READERS)
def test_spoilt_input_gives_issues_or_a_sentence(reader: str) -> None:
    @settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck))
    @given(spoilt(reader))
    def check(data: bytes) -> None:
        try:
            issues = READERS[reader](wrap(reader, data))
        except ChordaeError as error:
            assert error.message and error.message.encode()
            return
        for one in issues:
            json.dumps(one.to_json(), ensure_ascii=False).encode()

    check()


@pytest.mark.parametrize("reader", [one for one in READERS if one != "registry archive"])
def test_the_sound_inputs_are_sound(reader: str) -> None:
    """What is spoilt must first be read, or nothing behind the first look would be tried."""
    issues = READERS[reader](wrap(reader, seeds(reader)[0]))
    if not reader.startswith("deposit"):
        assert [one for one in issues if one.severity == "violation"] == []
