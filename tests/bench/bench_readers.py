"""How time and memory of every reader grow with its input; prints ratios, asserts nothing.

::

    python tests/bench/bench_readers.py [READER...]

Two sizes, one four times the other: a time that grows with the length gives about 4, one that grows with its square 16.
First every format with records that were written in it, then small pieces, repeated, of which a harmful file is made.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path

TOP = Path(__file__).parents[2]
sys.path[:0] = [str(TOP / "converters"), str(TOP / "tests")]

from chordae.canonical import canonical
from chordae.formats.packing import pack
from chordae.formats.settings import Settings
from chordae.formats.table import FORMATS
from generate_records import make_records
from hostile import READERS, harmless

SMALL, LARGE = 1000, 4000
RECORDS = 100
M = "https://w3id.org/chordae/model/"
SKOS = "http://www.w3.org/2004/02/skos/core#"
AXIOM = "[ o:annotatedSource e:{} ; o:annotatedProperty e:p ; o:annotatedTarget e:t ; s:mapping_justification e:j ]"
HEAD = (
    "@prefix s: <https://w3id.org/sssom/> . @prefix o: <http://www.w3.org/2002/07/owl#> . @prefix e: <https://e/> .\n"
)
ROW = {"subject_id": "a:1", "predicate_id": "skos:exactMatch", "object_id": "b:1", "mapping_justification": "semapv:X"}


def exported(name: str, number: int) -> bytes:
    """Records written in a format; a format of several files as a zip."""
    one = FORMATS[name]
    items = [(canonical(record), None) for record, _ in make_records(number)]
    if one.several:
        return pack(one.load().write_files(items, Settings(name)))
    return b"".join(one.load().write(items, Settings(name)))


def each(piece: Callable[[int], str], between: str = "", start: str = "", end: str = "") -> Callable[[int], bytes]:
    return lambda number: (start + between.join(piece(at) for at in range(number)) + end).encode()


def specimen(at: int) -> str:
    return json.dumps({"fullUrl": f"urn:uuid:{at}", "resource": {"resourceType": "Specimen", "id": str(at)}})


PIECES: dict[tuple[str, str], Callable[[int], bytes]] = {
    ("fhir", "specimens"): each(specimen, ",", '{"resourceType":"Bundle","entry":[', "]}"),
    ("fhir-ndjson", "lines"): each(lambda at: f'{{"resourceType":"Specimen","id":"{at}"}}\n'),
    ("turtle", "records"): each(lambda at: f"<https://e/{at}> a <{M}Record> .\n"),
    ("turtle", "parts without names"): each(
        lambda at: f"[ a <{M}Atrium> ]", ",", f"<https://e/1> a <{M}Record> ; <{M}parts> ", "."
    ),
    ("turtle", "a chain"): each(
        lambda at: f"_:b{at} <{M}parts> _:b{at + 1} .\n", "", f"<https://e/1> a <{M}Record> ; <{M}parts> _:b0 .\n"
    ),
    ("yaml", "records"): each(lambda at: f'- id: "{at}"\n'),
    ("json", "keys given twice"): each(lambda at: '{"a":1,"a":2}', ",", '{"id":"a","parts":[', "]}"),
    ("ndjson", "records"): each(lambda at: f'{{"id":"{at}"}}\n'),
    ("sssom", "rows"): each(lambda at: f"a:{at}\tb\tc\td\n", "", "\t".join(ROW) + "\n"),
    ("sssom-json", "rows"): each(lambda at: json.dumps({**ROW, "z": at}), ",", '{"mappings":[', "]}"),
    ("sssom-rdf", "rows"): each(AXIOM.format, ",", HEAD + "e:set a s:MappingSet ; s:mappings ", "."),
    ("obo", "a chain"): each(lambda at: f"[Term]\nid: HP:{at}\nname: x\nis_a: HP:{at - 1}\n\n"),
    ("obograph", "terms"): each(lambda at: f'{{"id":"x:{at}","lbl":"x"}}', ",", '{"graphs":[{"nodes":[', "]}]}"),
    ("skos", "concepts"): each(lambda at: f"<https://e/{at}> a <{SKOS}Concept> ; <{SKOS}prefLabel> 'x' .\n"),
    ("csv table", "rows"): each(lambda at: f"{at}\n", "", "no\n"),
    ("columns.tsv", "columns"): each(lambda at: f"c{at}\t\t\tignore\n", "", "column\tpart\tproperty\tkind\n"),
    ("values.tsv", "words"): each(lambda at: f"x\tw{at}\t\t\t\n", "", "column\tlocal\tpart\tproperty\tvalue\n"),
    ("profile", "rules that are none"): each(lambda at: f"  R-{at}: off\n", "", "id: x\nrules:\n"),
    ("deposit manifest-sha256.txt", "lines"): each(lambda at: f"{'0' * 64}  data/{at}\n"),
    ("digest", "blank nodes"): each(lambda at: f'_:a{at} <https://e/p> "{at}" .\n'),
    ("ontology ttl", "concepts"): each(lambda at: f"<https://e/{at}> a <{SKOS}Concept> ; <{SKOS}prefLabel> 'x' .\n"),
}


def measure(reader: str, what: str, make: Callable[[int], bytes], small: int, large: int) -> None:
    inputs = [("warm", make(10)), ("small", make(small)), ("large", make(large))]
    found = harmless(READERS[reader], inputs, seconds=120)
    one, other = found["small"], found["large"]
    size = len(inputs[2][1]) / 1e6
    share = other.megabytes / size if size > 1 else 0.0
    said = other.error or " ".join(other.rules)
    ratio = other.seconds / max(one.seconds, 0.001)
    print(
        f"{reader:28} {what:20} {size:6.2f} MB {other.seconds:7.2f} s   x{ratio:5.1f}   {share:5.1f} MB a MB   {said}",
        flush=True,
    )


def main() -> None:
    """Measure every reader, or those that are named."""
    wanted = sys.argv[1:]
    for name, one in FORMATS.items():
        if one.holds == "records" and one.reads and one.writes and (not wanted or name in wanted):
            measure(name, "exported records", lambda number, name=name: exported(name, number), RECORDS, 4 * RECORDS)  # type: ignore[misc]  # the default binds the name
    for (reader, what), make in PIECES.items():
        if not wanted or reader in wanted:
            measure(reader, what, make, SMALL, LARGE)


if __name__ == "__main__":
    main()
