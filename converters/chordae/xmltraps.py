"""XML before it is read: entities that grow, or that stand outside the file, are refused.

::

    <!ENTITY owl "http://www.w3.org/2002/07/owl#">     a short name for an address, as OWL files have: taken
    <!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">       entities within entities: they multiply without end
    <!ENTITY c SYSTEM "file:///etc/passwd">            it stands outside

For parsers that expand entities of their own accord; where ``defusedxml`` can be used, it is.
"""

from __future__ import annotations

import re

from chordae.errors import InputError

__all__ = ["refuse_entities"]

_ENTITY = re.compile(rb"<!ENTITY\s+([^\s\"'>]+)\s+(?:\"([^\"]*)\"|'([^']*)'|([^\s>]*))", re.IGNORECASE)
_START = re.compile(rb"<!ENTITY", re.IGNORECASE)
_GROWTH = 4
_FREE = 1024 * 1024


def refuse_entities(data: bytes, name: str) -> None:
    """Look at the entities that a document declares, without reading it.

    Parameters
    ----------
    data, name
        The document, and what messages call it.

    Raises
    ------
    InputError
        An entity holds another one, or stands outside the file; or all of them together would make the document more
        than four times as long.
    """
    plain = data.replace(b"\0", b"")
    found = list(_ENTITY.finditer(plain))
    if len(found) != len(_START.findall(plain)):
        raise _refused(name, "declares an entity in a way that cannot be followed")
    grown = 0
    for one in found:
        value = one[2] if one[2] is not None else one[3]
        if value is None or one[1] == b"%":
            raise _refused(name, "names something outside the file")
        if b"&" in value or b"%" in value:
            raise _refused(name, "holds entities within entities, which multiply")
        grown += len(value) * plain.count(b"&" + one[1] + b";")
    if grown > _GROWTH * len(plain) + _FREE:
        raise _refused(name, "holds entities that would make it many times as long")


def _refused(name: str, what: str) -> InputError:
    return InputError(f"{name} {what}; it was not read.", "Export it without entities.")
