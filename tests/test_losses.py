"""The page of losses (``examples/losses.md``): every format is there, and its numbers add up.

That they are as measured now is checked by ``tests/bench/measure_losses.py --check``, which ``.ci/run`` runs.
"""

from __future__ import annotations

import re
from pathlib import Path

from tests.bench.measure_losses import BARE, measure
from tests.formats_data import STATES_RECORD, example_records, record_formats

from chordae.canonical import canonical
from chordae.formats.table import FORMATS

PAGE = (Path(__file__).parents[1] / "examples" / "losses.md").read_text(encoding="utf-8")
ROW = re.compile(
    r"\| (?P<name>[a-z-]+)(?: (?P<star>\\\*))? \| (\d+) \| (\d+) \| (\d+) \| (\d+) "
    r"\| ([\d.]+) % \| ([\d.]+) % \|"
)


def test_every_format_has_a_row_whose_numbers_add_up() -> None:
    rows = {found["name"]: found for found in ROW.finditer(PAGE)}
    assert list(rows) == [one.name for one in record_formats()]
    for name, found in rows.items():
        statements, coded, text, dropped = (int(one) for one in found.groups()[2:6])
        assert statements == coded + text + dropped > 10_000
        assert abs(float(found[7]) - 100 * coded / statements) < 0.06
        assert float(found[8]) <= float(found[7])
        assert (found["star"] is None) is FORMATS[name].reads
        assert not FORMATS[name].lossless or coded == statements


def test_coded_is_measured_not_asserted() -> None:
    """What is taken out of the file before it is read again is no longer counted."""
    found = [canonical(STATES_RECORD), *example_records()[:3]]
    for name in BARE:
        whole, bare = (measure(FORMATS[name], found, standard=one)["totals"]["coded"] for one in (False, True))
        assert 0 < bare < whole, name
