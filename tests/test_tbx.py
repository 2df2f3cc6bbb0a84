"""The vocabulary as TBX-Core: the structure of ISO 30042:2019, and every name of every term with its school.

Outside check: ``lxml`` (libxml2) validates against ``tests/data/tbx_core.rng``, the structure of TBX-Core in our own
words; no package of PyPI, npm or Debian carries the published schema. The schema itself is held against an entry in the
form of the published example of the dialect, and against faults.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import pytest

from chordae import cli
from chordae.friends import ask
from chordae.terms import vocabulary
from chordae.vocabulary.publish import publish
from chordae.vocabulary.tbx import NAMESPACE

etree = pytest.importorskip("lxml.etree", reason="lxml is in the extra 'test'")
SCHEMA = Path(__file__).parent / "data" / "tbx_core.rng"
T = f"{{{NAMESPACE}}}"

# In the form of the example that is published with the dialect TBX-Core 1.0: two languages, notes at every level.
EXAMPLE = f"""<tbx type="TBX-Core" style="dca" xml:lang="en" xmlns="{NAMESPACE}">
<tbxHeader><fileDesc><sourceDesc><p>An invented file.</p></sourceDesc></fileDesc></tbxHeader>
<text><body><conceptEntry id="c1"><note>At the entry.</note>
  <langSec xml:lang="en"><note>At the language.</note>
    <termSec><term>nebula</term><note>Number: singular</note></termSec>
    <termSec><term>nebulae</term></termSec></langSec>
  <langSec xml:lang="es"><termSec><term>nebulosa</term></termSec></langSec>
</conceptEntry></body></text></tbx>"""


@cache
def schema() -> Any:
    return etree.RelaxNG(etree.parse(str(SCHEMA)))


@cache
def document() -> Any:
    return etree.fromstring(publish("tbx"))


def test_the_vocabulary_is_tbx_core() -> None:
    assert schema().validate(document()), schema().error_log


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("", ""),
        ('type="TBX-Core"', 'type="TBX-Basic"'),
        ('style="dca"', 'style="xcs"'),
        (' xml:lang="es"', ""),
        ("<term>nebulosa</term>", ""),
        ("<term>nebulosa</term>", "<term>a</term><term>b</term>"),
        ("<note>At the entry.</note>", '<descrip type="definition">x</descrip>'),
        ("<note>Number: singular</note>", '<termNote type="grammaticalNumber">singular</termNote>'),
        ("<sourceDesc><p>An invented file.</p></sourceDesc>", ""),
        (NAMESPACE, "urn:other"),
        ('<conceptEntry id="c1">', '<conceptEntry id="1 c">'),
        ("conceptEntry", "termEntry"),
    ],
)
def test_the_schema_takes_the_example_and_finds_each_fault(old: str, new: str) -> None:
    assert old in EXAMPLE
    assert schema().validate(etree.fromstring(EXAMPLE.replace(old, new))) == (old == new)


def test_every_name_of_every_term_stands_with_its_usage() -> None:
    entries = {one.get("id"): one for one in document().iter(f"{T}conceptEntry")}
    assert list(entries) == sorted(vocabulary().slugs)
    for term in vocabulary():
        entry = entries[term.slug]
        said: dict[str, list[str]] = {
            one.findtext(f"{T}term"): [note.text for note in one.iter(f"{T}note")] for one in entry.iter(f"{T}termSec")
        }
        expected: dict[str, set[str]] = {}
        for name, usage in (
            (term.european, "Usage: preferred in the European school"),
            (term.north_american, "Usage: preferred in the North American school"),
            (term.plain, "Usage: plain words for laypeople"),
            *((one, "Usage: synonym") for one in term.synonyms),
            *((one, "Usage: short form in the European school") for one in term.european_abbreviations),
            *((one, "Usage: short form in the North American school") for one in term.north_american_abbreviations),
        ):
            expected.setdefault(" ".join(name.split()), set()).add(usage)
        for name in expected:
            expected[name] |= {f"Ask before translating: {' '.join(one.ask.split())}" for one in ask(name)}
        assert {name: set(notes) for name, notes in said.items()} == expected
        notes = [one.text for one in entry.findall(f"{T}note")]
        assert notes[0] == f"Definition: {' '.join(term.definition.split())}" and notes[1].split(":")[0] in (
            "Scope",
            "Source",
        )


def test_a_word_of_several_meanings_carries_its_question() -> None:
    asked = [one.text for one in document().iter(f"{T}note") if (one.text or "").startswith("Ask before translating: ")]
    assert len(asked) > 50 and sum(one.endswith("?") for one in asked) > 50


def test_the_command_writes_it(tmp_path: Path) -> None:
    out = tmp_path / "chordae.tbx"
    assert cli.main(["write", "--vocabulary", "--to", "tbx", "--out", str(out)]) == 0
    assert out.read_bytes() == publish("tbx")
    assert b"not for diagnosis" in out.read_bytes()
