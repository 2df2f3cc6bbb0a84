"""A deposit: one folder that holds a collection's exchange and can be verified without anything else.

::

    <deposit>/ README.txt  bagit.txt  bag-info.txt  manifest-sha256.txt  tagmanifest-sha256.txt
               data/ records.ndjson  records.nq  issues.json  report.html  versions.json ...

The package is BagIt 1.0: every file stands in one of two lists of SHA-256 digests.

References
----------
RFC 8493, The BagIt File Packaging Format (V1.0), 2018.
"""

from __future__ import annotations

from chordae.deposit.seal import seal
from chordae.deposit.verify import is_deposit, records_file, verify
from chordae.deposit.versions import versions

__all__ = ["is_deposit", "records_file", "seal", "verify", "versions"]
