"""The shape of the archive: which columns its two tables have, and meta.xml, which says so to others.

::

    occurrence.txt          one row a record: what a museum's aggregator knows (catalogue number, sex, life stage, ...)
    measurementorfact.txt   one row a statement: measurementID <record>#parts/right_sided_atrium/pectinate_extent
    meta.xml, eml.xml       what the columns mean; what the data set is

Source: Darwin Core text guide of Biodiversity Information Standards (TDWG), term names of rs.tdwg.org/dwc/terms.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from xml.sax.saxutils import escape, quoteattr

from chordae.formats.settings import CAUTION
from chordae.resources import VERSION

__all__ = ["CORE", "CORE_FILE", "DWC", "FACTS", "FACTS_FILE", "META", "eml", "meta"]

DWC = "http://rs.tdwg.org/dwc/terms/"
META = "meta.xml"
CORE_FILE = "occurrence.txt"
FACTS_FILE = "measurementorfact.txt"

CORE: Mapping[str, tuple[str, ...] | None] = MappingProxyType(
    {
        "occurrenceID": None,
        "catalogNumber": ("specimen", "accession"),
        "otherCatalogNumbers": ("specimen", "other_numbers"),
        "collectionCode": ("collection",),
        "preparations": None,
        "sex": ("specimen", "sex"),
        "lifeStage": ("specimen", "age_group"),
        "occurrenceRemarks": ("specimen", "note"),
        "associatedMedia": None,
        "identifiedBy": ("description", "observer"),
        "dateIdentified": ("description", "described_on"),
        "identificationRemarks": ("stated", "statement"),
    }
)
"""Terms of the occurrence to where the record says it; ``None`` for what is made of several statements."""

FACTS = (
    "measurementID",
    "measurementType",
    "measurementValue",
    "measurementUnit",
    "measurementMethod",
    "measurementRemarks",
)
_DEFAULTS = {"basisOfRecord": "PreservedSpecimen", "scientificName": "Homo sapiens"}
_TABLE = r'encoding="UTF-8" fieldsTerminatedBy="\t" linesTerminatedBy="\n" fieldsEnclosedBy="" ignoreHeaderLines="1"'


def meta() -> str:
    """Return meta.xml."""
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<archive xmlns="http://rs.tdwg.org/dwc/text/" metadata="eml.xml">',
        f'  <core {_TABLE} rowType="{DWC}Occurrence">',
        f"    <files><location>{CORE_FILE}</location></files>",
        '    <id index="0"/>',
        *(f'    <field index="{at}" term="{DWC}{name}"/>' for at, name in enumerate(CORE, 1)),
        *(f"    <field default={quoteattr(value)} term={quoteattr(DWC + name)}/>" for name, value in _DEFAULTS.items()),
        "  </core>",
        f'  <extension {_TABLE} rowType="{DWC}MeasurementOrFact">',
        f"    <files><location>{FACTS_FILE}</location></files>",
        '    <coreid index="0"/>',
        *(f'    <field index="{at}" term="{DWC}{name}"/>' for at, name in enumerate(FACTS, 1)),
        "  </extension>",
        "</archive>",
    ]
    return "\n".join(lines) + "\n"


def eml(recorded: str) -> str:
    """Return the metadata of the data set in the Ecological Metadata Language, the few elements that it asks for."""
    who = "<organizationName>The collection that keeps the specimens</organizationName>"
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<eml:eml xmlns:eml="eml://ecoinformatics.org/eml-2.1.1" system="chordae {VERSION}"
  packageId="chordae/{escape(recorded)}">
  <dataset>
    <title>Descriptions of malformed hearts in a teaching collection</title>
    <creator>{who}</creator>
    <metadataProvider>{who}</metadataProvider>
    <pubDate>{escape(recorded[:10])}</pubDate>
    <abstract><para>{escape(CAUTION)}</para></abstract>
    <contact>{who}</contact>
  </dataset>
</eml:eml>
"""
