"""Our hierarchy and the outside ones, joined by the mappings: where they contradict each other.

::

    ours       A is a kind of B             outside       X is (not) below Y
               (or a part, if outside "below" may mean so)
    match      A - X, B - Y                 same: the same thing, exact or held at close; wide: X is wider; narrow

    if A is B's kind, X no wider than A and Y no narrower than B, then X must be below Y        else: ours only
    if X is below Y, A no wider than X and B no narrower than Y, then A must be B's kind        else: outside only

Besides: two of ours the same as one outside term; one of ours the same as two of one source; exact matches that chain
outside terms together (``skos:exactMatch`` is transitive: SKOS Reference, S45); and, where an outside source has itself
mapped X exactly to Z of another, a different judgement of A to X and of A to Z.

A contradiction that follows from another one higher up is not told again. Those that we know of and stand by are
recorded with a reason in ``mappings/exceptions.tsv``.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from chordae.mapping import Code
from chordae.vocabulary.outside import Release

__all__ = ["KINDS", "Contradiction", "Link", "find_contradictions", "links_of"]

Above = Callable[[str], Collection[str]]
"""From a term of ours to every term it is a kind of, itself left out."""
KINDS = ("ours_only", "outside_only", "two_to_one", "one_to_two", "chain", "outside_mapping")

_NOT_WIDER = ("same", "narrow")
_NOT_NARROWER = ("same", "broad")


@dataclass(frozen=True, slots=True)
class Link:
    """One match as the checks need it: ``relation`` is same, close, broad, narrow or related."""

    slug: str
    curie: str
    relation: str
    exact: bool

    @property
    def source(self) -> str:
        """Prefix of the outside term."""
        return self.curie.partition(":")[0]


@dataclass(frozen=True, slots=True)
class Contradiction:
    """One contradiction: ``terms`` of ours and ``codes`` outside, each from the narrower to the wider."""

    kind: str
    terms: tuple[str, ...]
    codes: tuple[str, ...]

    @property
    def key(self) -> tuple[str, str, str]:
        """How an exception names it: kind, terms, codes."""
        return self.kind, " ".join(self.terms), " ".join(self.codes)


def links_of(slugs: Iterable[str], codes: Callable[[str], Sequence[Code]]) -> list[Link]:
    """Return the matches of terms, as :func:`chordae.mapping.codes_for` gives them."""
    return [
        Link(slug, code.curie, "same" if code.same else code.predicate, code.predicate == "exact")
        for slug in slugs
        for code in codes(slug)
    ]


def find_contradictions(
    links: Collection[Link],
    above: Above,
    releases: Mapping[str, Release],
    outside_pairs: Collection[tuple[str, str]] = (),
    above_or_around: Above | None = None,
) -> list[Contradiction]:
    """Return every contradiction, sorted.

    Parameters
    ----------
    links
        The matches.
    above
        From a term of ours to all terms it is a kind of.
    releases
        Source to the release whose hierarchy is asked. Hierarchies in which "below" may mean "part of" (``mixed``) are
        not asked whether they say more than ours; sources without a hierarchy are passed over.
    outside_pairs
        Pairs of outside terms that an outside source itself calls exact matches.
    above_or_around
        From a term of ours to all terms it is a kind or a part of, for hierarchies that are ``mixed``; ``above`` if
        not given.
    """
    found: set[Contradiction] = set()
    for release in releases.values():
        joined = _Joined(links, (release.hierarchy == "mixed" and above_or_around) or above, release)
        if release.hierarchy != "none":
            found.update(joined.ours_only())
        if release.hierarchy not in ("none", "mixed"):
            found.update(joined.outside_only())
    found.update(_counts(links))
    found.update(_chains(links))
    found.update(_other_mapping(links, outside_pairs))
    return sorted(found, key=lambda one: one.key)


class _Joined:
    """Our hierarchy and one outside hierarchy, joined by the matches to it."""

    def __init__(self, links: Iterable[Link], above: Above, release: Release) -> None:
        self.release = release
        self._above = above
        self.links = [one for one in links if one.source == release.source and one.curie in release.terms]
        self.by_slug: dict[str, list[Link]] = defaultdict(list)
        self.by_curie: dict[str, list[Link]] = defaultdict(list)
        for one in self.links:
            self.by_slug[one.slug].append(one)
            self.by_curie[one.curie].append(one)

    def up(self, slug: str) -> tuple[str, ...]:
        """A term of ours and all above it."""
        return (slug, *sorted(self._above(slug)))

    def out(self, curie: str) -> tuple[str, ...]:
        """An outside term and all above it."""
        return (curie, *sorted(self.release.ancestors(curie)))

    def ours_only(self) -> Iterator[Contradiction]:
        """A is B's kind, but X is not below Y."""
        for low in self.links:
            if low.relation in _NOT_WIDER and self._in_tree(low.curie):
                for high in self._wider_through_ours(low):
                    if high.curie not in self.out(low.curie) and not self._told_of_ours(low, high):
                        yield Contradiction("ours_only", (low.slug, high.slug), (low.curie, high.curie))

    def outside_only(self) -> Iterator[Contradiction]:
        """X is below Y, but A is not B's kind."""
        for low in self.links:
            if low.relation in _NOT_NARROWER:
                for high in self._wider_outside(low):
                    if high.slug not in self.up(low.slug) and not self._told_of_outside(low, high):
                        yield Contradiction("outside_only", (low.slug, high.slug), (low.curie, high.curie))

    def _wider_through_ours(self, low: Link) -> Iterator[Link]:
        for slug in self.up(low.slug):
            for high in self.by_slug.get(slug, ()):
                if high.relation in _NOT_NARROWER and high.curie != low.curie and self._in_tree(high.curie):
                    yield high

    def _wider_outside(self, low: Link) -> Iterator[Link]:
        for curie in self.out(low.curie):
            for high in self.by_curie.get(curie, ()):
                if high.relation in _NOT_WIDER:
                    yield high

    def _told_of_ours(self, low: Link, high: Link) -> bool:
        # Follows from a contradiction with a wider low pair, or a narrower high one.
        for slug in self.up(low.slug):
            if high.slug not in self.up(slug):
                continue
            for one in self.by_slug.get(slug, ()):
                wider = one.relation in _NOT_WIDER and one.curie in self.out(low.curie)
                if wider and (one.slug, one.curie) != (low.slug, low.curie):
                    return True
                nearer = one.relation in _NOT_NARROWER and high.curie in self.out(one.curie)
                if nearer and one.curie != low.curie and (one.slug, one.curie) != (high.slug, high.curie):
                    return True
        return False

    def _told_of_outside(self, low: Link, high: Link) -> bool:
        higher = (one for slug in self.up(low.slug)[1:] for one in self.by_slug.get(slug, ()))
        if any(one.relation in _NOT_NARROWER and high.curie in self.out(one.curie) for one in higher):
            return True
        return any(
            one.slug != high.slug and high.slug in self.up(one.slug)
            for one in self._wider_outside(low)
            if one.slug not in self.up(low.slug)
        )

    def _in_tree(self, curie: str) -> bool:
        # Codes with nothing above or below them stand in no tree (extension codes of ICD-11, top codes).
        terms = self.release.terms
        if self.release.hierarchy != "code" or terms[curie].parents:
            return True
        return any(curie in term.parents for term in terms.values())


def _counts(links: Iterable[Link]) -> Iterator[Contradiction]:
    ours: dict[str, set[str]] = defaultdict(set)
    outside: dict[tuple[str, str], set[str]] = defaultdict(set)
    for one in links:
        if one.relation == "same":
            ours[one.curie].add(one.slug)
            outside[one.slug, one.source].add(one.curie)
    for curie, slugs in ours.items():
        if len(slugs) > 1:
            yield Contradiction("two_to_one", tuple(sorted(slugs)), (curie,))
    for (slug, _), curies in outside.items():
        if len(curies) > 1:
            yield Contradiction("one_to_two", (slug,), tuple(sorted(curies)))


def _chains(links: Iterable[Link]) -> Iterator[Contradiction]:
    exact: dict[str, set[str]] = defaultdict(set)
    for one in links:
        if one.exact:
            exact[one.slug].add(one.curie)
            exact[one.curie].add(one.slug)
    slugs = {one.slug for one in links if one.exact}
    seen: set[str] = set()
    for start in sorted(exact):
        if start in seen:
            continue
        group, todo = {start}, [start]
        while todo:
            fresh = exact[todo.pop()] - group
            group |= fresh
            todo.extend(fresh)
        seen |= group
        if len(group - slugs) > 1:
            yield Contradiction("chain", tuple(sorted(group & slugs)), tuple(sorted(group - slugs)))


def _other_mapping(links: Iterable[Link], pairs: Iterable[tuple[str, str]]) -> Iterator[Contradiction]:
    judged = {(one.slug, one.curie): one.relation for one in links}
    slugs: dict[str, list[str]] = defaultdict(list)
    for slug, curie in judged:
        slugs[curie].append(slug)
    for first, second in pairs:
        for slug in slugs.get(first, ()):
            if (slug, second) in judged and judged[slug, first] != judged[slug, second]:
                yield Contradiction("outside_mapping", (slug,), (first, second))
