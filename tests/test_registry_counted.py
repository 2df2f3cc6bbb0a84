"""What is counted at acceptance against the same questions asked of every heart, and what an older registry lacks."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import orjson
import pytest

from chordae.registry import Registry, submit
from chordae.registry.ask import Asker
from chordae.registry.counted import recount
from chordae.registry.made import COUNTED, open_graph, read_counted, read_rows
from chordae.registry.stores import Embedded, open_store
from chordae.registry.verify import verify
from registry_data import deposit, hearts, registry

QUERIES = Path(__file__).parent / "data" / "registry_queries"
COUNTED_QUESTIONS = ("coding_coverage", "counts", "disagreements", "not_determined", "second_readings")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two collections; in one, some specimens were read twice, and some readings contradict what was seen."""
    top = tmp_path_factory.mktemp("counted")
    read = [*hearts(range(30), "aldermoor", faults=0.4), *hearts(range(100, 110), "aldermoor", faults=0.5)]
    for number, one in enumerate(read[30:]):
        one["specimen"]["accession"] = read[number]["specimen"]["accession"]
    deposits = [
        deposit(top / "one", read),
        deposit(top / "two", hearts(range(200, 220), "birchholt", faults=0.2), "birchholt"),
        deposit(top / "three", read[:35]),
    ]
    made = registry(top / "registry", "never")
    with Registry.open(made, write=True) as opened:
        for one in deposits:
            assert submit(opened, one).entry.accepted
        with open_store(opened) as store:
            assert verify(opened, store) == []
    return made


@pytest.fixture(scope="module")
def asker(folder: Path) -> Iterator[Asker]:
    with Registry.open(folder) as opened, Asker.of(opened) as asking:
        yield asking


@pytest.mark.parametrize("name", COUNTED_QUESTIONS)
def test_what_was_counted_is_what_all_hearts_say(name: str, asker: Asker) -> None:
    """The queries of ``tests/data/registry_queries`` look at every heart; SPARQL counts, not chordae."""
    counted = _rows(asker.question(name, {}, seconds=120).data)
    text = (QUERIES / f"{name}.rq").read_text(encoding="utf-8").replace("$limit", "1000")
    asked = _rows(asker.ask(text, seconds=120).data)
    for rows in (counted, asked):
        for row in rows:
            row.pop("for_example", None)  # SAMPLE may give any of the reasons
    assert counted == asked
    assert len(counted) > 1


def test_a_count_can_be_made_again(folder: Path) -> None:
    with Registry.open(folder) as opened:
        for number in (1, 2, 3):
            made = opened.made(number)
            with open_graph(made) as lines:
                assert recount((one.iri for one in read_rows(made)), lines) == (made / COUNTED).read_bytes()


def test_a_count_that_was_changed_is_named(folder: Path, tmp_path: Path) -> None:
    copy = Path(shutil.copytree(folder, tmp_path / "copy"))
    with Registry.open(copy, write=True) as opened, open_store(opened) as store:
        path = opened.made(1) / COUNTED
        path.write_bytes(path.read_bytes().replace(b'"40"', b'"41"'))
        assert verify(opened, store) == ["What was made for line 1 is not as it was."]


def test_a_store_of_an_older_chordae_is_counted_when_it_is_opened(folder: Path, tmp_path: Path) -> None:
    """Lines and files without counts, and a store that was loaded without them."""
    copy = Path(shutil.copytree(folder, tmp_path / "copy"))
    with Registry.open(copy, write=True) as opened:
        kept = [(opened.made(number) / COUNTED).read_bytes() for number in (1, 2, 3)]
        for number in (1, 2, 3):
            (opened.made(number) / COUNTED).unlink()
            assert read_counted(opened.made(number)) == kept[number - 1]
        store = Embedded(copy / "store" / "live")
        store._store.update("DELETE WHERE { GRAPH ?g { ?s <https://w3id.org/chordae/registry/counted> ?o } }")
        for entry in opened.ledger.entries():
            store._store.update(f"DROP GRAPH <{entry.graph}/counted>")
        shutil.rmtree(copy / "store" / "seen")
        (copy / "store" / "seen").mkdir()
        store.freeze(copy / "store" / "seen")  # readers hold a view without counts
        store.close()
        with open_store(opened) as following:
            for entry, counted in zip(opened.ledger.entries(), kept, strict=True):
                assert following.size(f"{entry.graph}/counted") == counted.count(b"\n")
            assert following.said("counted") == "1"
    with Registry.open(copy) as opened, Asker.of(opened) as asking:
        assert len(_rows(asking.question("counts", {}, seconds=120).data)) > 1


def _rows(data: bytes) -> list[dict[str, Any]]:
    found = orjson.loads(data)
    return [{key: one["value"] for key, one in row.items()} for row in found["results"]["bindings"]]
