"""What stops the work: one base class and six leaves.

An *error* means that we cannot go on (a file that cannot be read, a broken shape). A fault in someone's
data is no error: it is an :class:`chordae.issues.Issue`, and the work goes on.
"""

from __future__ import annotations

__all__ = [
    "ChordaeError",
    "FormatError",
    "InputError",
    "MissingExtra",
    "ResourceError",
    "ShapesError",
    "VocabularyError",
]


class ChordaeError(Exception):
    """The base of every error of this package.

    Parameters
    ----------
    message
        What was found and what was expected, in a curator's words.
    hint
        What to do about it; may be empty.
    """

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self) -> str:
        return f"{self.message} {self.hint}".strip()


class InputError(ChordaeError):
    """A file given by the user cannot be read at all."""


class FormatError(ChordaeError):
    """A format or an option is not one that is offered."""


class ResourceError(ChordaeError):
    """A data file of the package is missing or broken."""


class VocabularyError(ChordaeError):
    """A term or a mapping table of the package is not as it must be."""


class ShapesError(ChordaeError):
    """A rule file cannot be used."""


class MissingExtra(ChordaeError):
    """A step needs a package that was not installed.

    Parameters
    ----------
    extra
        Name of the extra in ``pyproject.toml``, for example ``ontologies``.
    purpose
        What it is needed for, completing "... is needed for".
    """

    def __init__(self, extra: str, purpose: str = "this step") -> None:
        super().__init__(
            f"The optional part '{extra}' is needed for {purpose} and is not installed.",
            f"Install it with: pip install 'chordae[{extra}]'",
        )
        self.extra = extra
