"""Sound input for every reader, that is then spoilt; what stands in a zip is spoilt inside it.

``seeds(reader)`` gives small inputs; ``wrap(reader, data)`` makes of spoilt bytes what the reader takes: as they are,
or as one part of a zip whose other parts are sound (the first byte says which).
"""

from __future__ import annotations

import io
import sys
import zipfile
from functools import cache
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
if str(TOP / "tests") not in sys.path:
    sys.path[:0] = [str(TOP / "converters"), str(TOP / "tests")]

from chordae.canonical import canonical
from chordae.formats.packing import pack
from chordae.formats.settings import Settings
from chordae.formats.table import FORMATS
from generate_records import make_records
from hostile import attacks, zipped

__all__ = ["TOKENS", "seeds", "wrap"]

SET = (TOP / "mappings" / "chordae-bspo.sssom.tsv").read_bytes()
OBO = (
    b"format-version: 1.4\n\n[Term]\nid: HP:0000001\nname: All\n\n"
    b"[Term]\nid: HP:0000118\nname: Phenotype\nis_a: HP:0000001\n"
)
TTL = (
    b"@prefix s: <http://www.w3.org/2004/02/skos/core#> .\n<https://e/1> a s:Concept ; s:prefLabel 'heart'@en ;"
    b" s:altLabel 'cor' ; s:broader <https://e/2> .\n"
)
OWL = (
    b'<?xml version="1.0"?>\n<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"'
    b' xmlns:owl="http://www.w3.org/2002/07/owl#" xmlns:rdfs="http://www.w3.org/2000/01/rdf-schema#">\n'
    b'<owl:Class rdf:about="https://e/1"><rdfs:label xml:lang="en">heart</rdfs:label></owl:Class></rdf:RDF>\n'
)
GRAPH = b'{"graphs":[{"id":"x","nodes":[{"id":"http://purl.obolibrary.org/obo/HP_1","type":"CLASS","lbl":"a"}],"edges":[]}]}'
JSONLD = b'{"@context":{"s":"http://www.w3.org/2004/02/skos/core#"},"@id":"https://e/1","@type":"s:Concept","s:prefLabel":"a"}'
OTHERS: dict[str, tuple[bytes, ...]] = {
    "csv table": (b"no;leaflets;notes\n0012;3;x\n0013;\xe9;'\n", b'no,leaflets\n"0012",3\n'),
    "columns.tsv": (
        b"column\tpart\tproperty\tkind\tstyle\nno\tspecimen\taccession\tidentifier\t\n"
        b"x\tdescription\tdescribed_on\tdate\td.m.y\n",
    ),
    "values.tsv": (b"column\tlocal\tpart\tproperty\tvalue\tstate\tmatch\nx\tyes\taorta\tstate\t\tpresent\texact\n",),
    "collection.yaml": (b"id: x\nname: A collection\nbase_iri: https://example.org/x/\ncatalogue: catalogue.csv\n",),
    "profile": (b'id: x\nrules: {R-ASS-08: "off"}\nrequire: {specimen: [accession]}\nmissing: info\n',),
    "registry profile": (
        b"id: x\nrefuse_on: warning\ncollection: [id]\nlicences: [CC0-1.0]\nnewer: warn\nrules: {}\n",
    ),
    "registry archive": (zipped({"bagit.txt": b"BagIt-Version: 1.0\n", "data/records.ndjson": b'{"id":"1"}\n'}),),
    "ontology obo": (OBO, GRAPH),
    "ontology json": (GRAPH,),
    "ontology owl": (OWL, TTL),
    "ontology ttl": (TTL,),
    "ontology nt": (
        b"<https://e/1> <http://www.w3.org/1999/02/22-rdf-syntax-ns#type>"
        b" <http://www.w3.org/2004/02/skos/core#Concept> .\n"
        b'<https://e/1> <http://www.w3.org/2004/02/skos/core#prefLabel> "a"@en .\n',
    ),
    "ontology jsonld": (JSONLD,),
    "ontology trig": (TTL.replace(b"<https://e/1> a", b"<https://e/g> { <https://e/1> a") + b"}\n",),
    "words txt": (b"VSD\nhole in the heart\n",),
    "words json": (b'{"unmapped_words":[{"word":"VSD","column":"dx","count":3}]}',),
    "words csv": (b"word,column,count\nVSD,dx,3\n",),
    "words tsv": (b"local\tcolumn\tmatch\nVSD\tdx\t\nASD\tdx\tambiguous\n",),
    "digest": (b"_:a <https://e/p> _:b .\n_:b <https://e/p> _:a <https://e/g> .\n",),
    "deposit bagit.txt": (b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n",),
    "deposit bag-info.txt": (b"Bagging-Date: 2026-01-31\nPayload-Oxum: 1.1\n",),
    "deposit manifest-sha256.txt": (b"ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb  data/a\n",),
    "deposit tagmanifest-sha256.txt": (b"0" * 64 + b"  bagit.txt\n",),
    "deposit data/records.ndjson": (b'{"id":"1"}\n',),
    "deposit data/report.json": (b'{"records": 1}',),
    "deposit data/versions.json": (b'{"tool":{"version":"0.1.0","sha256":"x"}}',),
    "obo": (OBO,),
    "obograph": (GRAPH,),
    "skos": (TTL,),
}
TOKENS: tuple[bytes, ...] = (
    *(b"id: ", b"- ", b"\n", b"  ", b"&a ", b"*a", b"!!t ", b"[", b"]", b"{", b"}", b"? ", b": ", b"---\n", b"|", b">"),
    *(b'"', b"'", b"#", b"\\u", b"\\ud800", b",", b";", b"\t", b"\xff", b"\x00", b"<<", b"\xef\xbb\xbf", b"\xff\xfe"),
    *(b"\x85", b"\xe2\x80\xa8", b"\r", b"1e999", b"0012", b"-1", b"9" * 400, b"null", b"true", b'""', b"{}", b"[]"),
    *(
        b"<a>",
        b"</a>",
        b"&lt;",
        b"&#0;",
        b"<!DOCTYPE x [",
        b"<!ENTITY a 'b'>",
        b"]]>",
        b"_:b",
        b"<https://e/x>",
        b"@en",
    ),
    *(b"^^<http://www.w3.org/2001/XMLSchema#integer>", b"<<( ", b" )>>", b"@prefix a: <b> .", b'"@id"', b'"@context"'),
    *(b"resourceType", b"Bundle", b"../", b"/etc/passwd", b"http://e/x", b"2026-02-30", b"not_assessable", b"absent"),
)
"""Pieces that mean something in one of the formats."""


@cache
def seeds(reader: str) -> tuple[bytes, ...]:
    """Return sound inputs of a reader, unwrapped."""
    if reader in _PARTED:
        return tuple(bytes([at]) + content for at, (_, content) in enumerate(_parts(reader)))
    if reader in OTHERS:
        return OTHERS[reader]
    if reader == "outside-table":
        return (
            b"# source: HP\n# release: 1\n# parents: kind\nid\tlabel\tobsolete\treplaced_by\tparents\nHP:1\ta\t\t\t\n",
        )
    return (_exported(reader),)


def wrap(reader: str, data: bytes) -> bytes:
    """Return what a reader takes, from bytes that may be spoilt."""
    if reader not in _PARTED or not data:
        return data
    parts = _parts(reader)
    spoilt = data[0] % len(parts)
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as package:
        for at, (name, content) in enumerate(parts):
            package.writestr(zipfile.ZipInfo(name), data[1:] if at == spoilt else content)
    return stream.getvalue()


_PARTED = frozenset({"xlsx", "xlsx table", "csv", "dwca", "phenopackets"})


@cache
def _parts(reader: str) -> list[tuple[str, bytes]]:
    if reader in ("xlsx", "xlsx table"):
        import openpyxl

        stream = io.BytesIO()
        if reader == "xlsx":
            book = openpyxl.load_workbook(io.BytesIO(_exported(reader)))
            for title in [one.title for one in book if one.max_row < 2] + ["Instructions", "Words"]:
                del book[title]  # nothing is in them, and they take a second each time
        else:
            book = openpyxl.Workbook()
            for line in (["no", "leaflets"], ["0012", 3], ["0013", 2.5]):
                book.active.append(line)
        book.save(stream)
        data = stream.getvalue()
    else:
        data = _exported(reader)
    if data[:4] != b"PK\x03\x04":
        return [("only", data)]
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        return [(one.filename, package.read(one)) for one in package.infolist()]


def _exported(name: str) -> bytes:
    one = FORMATS[name]
    if one.holds == "mappings":
        from chordae.formats.sssom_forms import write
        from chordae.sssom import MappingSet, read_mappings

        whole, _ = read_mappings(SET, "set")
        return b"".join(write([MappingSet("set", whole.header, whole.rows[:3])], Settings(name)))
    items = [(canonical(record), None) for record, _ in make_records(1, seed=7)]
    if one.several:
        return pack(one.load().write_files(items, Settings(name)))
    return b"".join(one.load().write(items, Settings(name)))


@cache
def harmful() -> list[bytes]:
    """Return the attacks of the table that are short enough to be spoilt further; made once, some are slow to make."""
    return [data for _, data in attacks() if 0 < len(data) < 4000]
