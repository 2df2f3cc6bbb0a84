"""An invented collection of a few hearts, and steps without any knowledge of hearts, for the tests of exchange."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from chordae.exchange import Steps
from chordae.issues import Issue
from chordae.mapping import Code
from chordae.record import Reading, Record

COLLECTION = """\
id: alder_house
name: "Alder House cabinet (invented)"
base_iri: "https://example.org/alder-house/"
custodian: "Alder House, an invented museum"
licence: "CC-BY-4.0"
"""

COLUMNS = """\
column\tpart\tproperty\tkind\tstyle\tunit\tnote
No.\t\t\tidentifier\t\t\t
No.\tspecimen\taccession\ttext\t\t\t
Consent\tspecimen\tconsent\tvalue\t\t\t
Atria\tstated\tatrial_arrangement\tvalue\t\t\t
AV\tstated\tav_connection\tvalue\t\t\t
VA\tstated\tva_connection\tvalue\t\t\t
Leaflets\ttricuspid_valve\tleaflet_count\tnumber\t\t\t
Donor\t\t\tignore\t\t\t
Remarks\t\t\tremark\t\t\t
"""

VALUES = """\
column\tlocal\tpart\tproperty\tvalue\tstate\tmatch\treviewer\tnote
Consent\tpaper\tspecimen\tconsent\twritten_consent\t\texact\tA. Reader\t
Atria\tsolitus\tstated\tatrial_arrangement\tusual\t\texact\tA. Reader\t
Atria\tRAI\tstated\tatrial_arrangement\tright_isomerism\t\texact\tA. Reader\t
AV\tconc\tstated\tav_connection\tconcordant\t\texact\tA. Reader\t
VA\tconc\tstated\tva_connection\tconcordant\t\texact\tA. Reader\t
VA\tdisc\tstated\tva_connection\tdiscordant\t\texact\tA. Reader\t
"""

ROWS = """\
No.,Consent,Atria,AV,VA,Leaflets,Donor,Remarks,Shelf
0012,paper,solitus,conc,conc,3,somebody,=SUM(1),7
0013,paper,solitus,conc,disc,2,somebody,<script>alert(1)</script>,7
0014,,RAI,mystery,disc,many,,,8
0013,,solitus,,,,,given twice,
,,solitus,,,,,no number,
"""


def write_collection(folder: Path, rows: str = ROWS) -> Path:
    """Write the collection into a folder and return it."""
    folder.mkdir(parents=True, exist_ok=True)
    texts = {"collection.yaml": COLLECTION, "columns.tsv": COLUMNS, "values.tsv": VALUES, "catalogue.csv": rows}
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def many_rows(count: int) -> str:
    """Return a table of as many good rows."""
    head = ROWS.splitlines()[0]
    return head + "\n" + "".join(f"{number:05},paper,solitus,conc,disc,3,,,\n" for number in range(count))


def derive(record: Record) -> Mapping[str, Any]:
    """Repeat what is stated: not what derivation does, but enough to see where it ends up."""
    stated = record.get("stated", {})
    return {
        "record": record["id"],
        "arrangement": stated.get("atrial_arrangement"),
        "va_connection": stated.get("va_connection"),
        "statement": {"european": f"Heart {record['id']}.", "north_american": ""},
        "identities": [],
        "diagnoses": [],
        "undetermined": [{"what": "topology", "why": "Nothing is recorded of the ventricles."}],
    }


def check(readings: Sequence[Reading], graphs: Sequence[str]) -> list[list[Issue]]:
    """Find fault with every discordant connection."""
    return [
        [Issue("S-REF", "warning", "Discordant.", "Look again.", str(reading.record["id"]))]
        if "discordant_ventriculoarterial_connections" in graph
        else []
        for reading, graph in zip(readings, graphs, strict=True)
    ]


def codes(term: str) -> list[Code]:
    """Know one term."""
    known = Code("HP:0000001", "", "exact", "invented", "", reviewed=False, same=True, comment="")
    return [known] if term == "discordant_ventriculoarterial_connections" else []


STEPS = Steps(
    expand=lambda reading: (reading, ()),
    derive=derive,
    check=check,
    not_tested=lambda: ("I-FIL-01",),
    codes=codes,
    publish=lambda: b"# The vocabulary.\n",
)
