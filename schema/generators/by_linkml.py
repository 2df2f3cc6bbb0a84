"""What LinkML's own generators write, and the few corrections that its output needs (LinkML 1.12).

=================  ===============================================================================
JSON Schema        ``type`` required in each part; the branch is chosen by it (``if``/``then``), where
                   the generator offers all classes at once and so gives dozens of messages for one fault;
                   lists of words without an order may not repeat one; no nulls
Pydantic model     the union of the parts gets its discriminator; no path of the machine is left in it
SHACL              taken as it is: the structural layer
=================  ===============================================================================
"""

from __future__ import annotations

import json
import re
import warnings
from typing import Any

__all__ = ["make_json_schema", "make_model", "make_shapes"]

_NOTE = "# Written by schema/generate.py from schema/*.yaml; never edit it.\n"


def make_json_schema(path: str, tables: dict[str, Any]) -> str:
    """Return the JSON Schema of a record (draft 2019-09), closed."""
    from linkml.generators.jsonschemagen import JsonSchemaGenerator

    schema = json.loads(JsonSchemaGenerator(path, include_null=False).serialize())
    schema["$id"] = "https://w3id.org/chordae/schema/chordae.schema.json"
    slots, classes = tables["slots"], tables["classes"]
    for name, one in classes.items():
        found = schema["$defs"].get(name)
        if found is None or one.get("abstract"):
            continue
        if "Part" in one["ancestors"]:
            found["required"] = sorted({*found.get("required", []), "id", "type"})
        for key, value in found["properties"].items():
            slot = slots[key]
            if slot["multivalued"] and not slot["ordered"] and slot["kind"] != "node":
                value["uniqueItems"] = True
    for place in (schema, schema["$defs"]["Record"]):
        place["properties"]["parts"]["items"] = _by_type(classes)
        place["properties"] = {key: place["properties"][key] for key in classes["Record"]["slots"]}
    schema["properties"] = schema["$defs"]["Record"]["properties"]
    return json.dumps(schema, ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def make_shapes(path: str) -> str:
    """Return the structural shapes as Turtle."""
    from linkml.generators.shaclgen import ShaclGenerator

    text = _quietly(lambda: str(ShaclGenerator(path).serialize()))
    return _NOTE + text.strip() + "\n"


def make_model(path: str) -> str:
    """Return a Pydantic model of a record, for those who read records in their own programs."""
    from linkml.generators.pydanticgen import PydanticGenerator
    from linkml.generators.pydanticgen.pydanticgen import MetadataMode

    text = _quietly(lambda: str(PydanticGenerator(path, metadata_mode=MetadataMode.NONE).serialize()))
    text, found = re.subn(
        r"Optional\[list\[(Union\[[A-Za-z, ]+\])\]\] = Field\(default=None",
        r'Optional[list[Annotated[\1, Field(discriminator="type")]]] = Field(default=None',
        text,
    )
    if found != 1:
        raise ValueError(f"the union of the parts was found {found} times in the model")
    text, imported = re.subn(r"(?m)^from typing import \(\n", "from typing import (\n    Annotated,\n", text)
    if imported != 1:
        raise ValueError("the imports of the model have changed")
    text = re.sub(r"(?m)^ *'source_file': '[^']*',?\n", "", text)
    text = re.sub(r"(?m)[ \t]+$", "", text)
    return _NOTE + text.strip() + "\n"


def _by_type(classes: dict[str, Any]) -> dict[str, Any]:
    names = [name for name, one in classes.items() if "Part" in one["ancestors"] and not one.get("abstract")]
    return {
        "type": "object",
        "required": ["id", "type"],
        "properties": {"type": {"enum": names}},
        "allOf": [
            {
                "if": {"type": "object", "properties": {"type": {"const": name}}, "required": ["type"]},
                "then": {"$ref": f"#/$defs/{name}"},
            }
            for name in names
        ],
    }


def _quietly(make: Any) -> str:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return str(make())
