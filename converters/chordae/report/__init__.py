"""The report of an exchange: counted once, shown as text, as a page, or as data.

::

    records, derived statements, issues  ->  Summary  ->  to_json()  ->  make_text | make_page | JSON
"""

from __future__ import annotations

from chordae.report.heart import Heart
from chordae.report.page import make_page, page_pieces
from chordae.report.summary import Summary
from chordae.report.text import make_brief, make_text

__all__ = ["Heart", "Summary", "make_brief", "make_page", "make_text", "page_pieces"]
