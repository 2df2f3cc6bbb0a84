"""Fuzz every reader with atheris (libFuzzer): inputs are bred from sound ones by what the code does with them.

::

    pip install atheris
    python tests/fuzz/fuzz_readers.py --seconds 60              every reader, a minute each
    python tests/fuzz/fuzz_readers.py --seconds 600 turtle dwca
    python tests/fuzz/fuzz_readers.py --replay crash-... turtle  one input again

Prints for each reader how many inputs were tried, how many were kept because they reached something new, and each crash
with its last line; inputs that crash are kept in the folder that is named. A crash is any end but issues or an error of
this package, more than ten seconds, or more than 2 GB.
"""

from __future__ import annotations

import argparse
import json
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parents[1] / "converters"), str(HERE.parent), str(HERE)]

_RUNS = re.compile(r"stat::number_of_executed_units:\s*(\d+)")
_NEW = re.compile(r"stat::new_units_added:\s*(\d+)")


def one(reader: str, words: list[str]) -> None:
    """Fuzz one reader in this process; does not return."""
    import atheris

    with atheris.instrument_imports(include=["chordae"]):
        from hostile import READERS
    from seeds import wrap

    from chordae.errors import ChordaeError

    def attempt(data: bytes) -> None:
        try:
            issues = READERS[reader](wrap(reader, data))
        except ChordaeError:
            return
        for found in issues[:50]:
            json.dumps(found.to_json(), ensure_ascii=False).encode()

    atheris.Setup([sys.argv[0], *words], attempt)
    atheris.Fuzz()


def campaign(reader: str, seconds: int, kept: Path) -> str:
    """Fuzz one reader in a process of its own; return the line of the table."""
    from seeds import TOKENS, seeds

    name = re.sub(r"\W+", "_", reader)
    with tempfile.TemporaryDirectory() as folder:
        corpus = Path(folder) / "corpus"
        corpus.mkdir()
        for at, data in enumerate(seeds(reader)):
            (corpus / f"seed{at}").write_bytes(data)
        words = Path(folder) / "words"
        quoted = ("".join(f"\\x{byte:02x}" for byte in one) for one in TOKENS if len(one) < 60)
        words.write_text("".join(f'"{one}"\n' for one in quoted), encoding="ascii")
        longest = max(4096, 2 * max(len(one) for one in seeds(reader)))
        limits = [f"-max_total_time={seconds}", f"-max_len={longest}", "-timeout=10", "-rss_limit_mb=2048"]
        command = [sys.executable, __file__, "--one", reader, str(corpus), *limits, f"-dict={words}"]
        command += [f"-artifact_prefix={kept}/{name}-", "-print_final_stats=1", "-verbosity=1"]
        done = subprocess.run(command, capture_output=True, check=False)
    said = done.stderr.decode(errors="replace") + done.stdout.decode(errors="replace")
    runs, new = (int(found[1]) if (found := one.search(said)) else 0 for one in (_RUNS, _NEW))
    crash = re.search(r"Uncaught Python exception: ===\n(.*(?:\n.*)?)", said) or re.search(
        r"ERROR: libFuzzer: (.*)", said
    )
    trouble = f"CRASH {' '.join(crash[1].split())[:200]}" if crash else "" if runs else said.strip()[-200:]
    return f"{reader:30} {runs:9,} inputs  {new:6,} kept  {trouble}"


def main() -> int:
    """Fuzz the readers that are named, or all."""
    if sys.argv[1:2] == ["--one"]:
        one(sys.argv[2], sys.argv[3:])
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n\n")[0])
    parser.add_argument("readers", nargs="*", metavar="READER")
    parser.add_argument("--seconds", type=int, default=60, help="for each reader (default: 60)")
    parser.add_argument("--jobs", type=int, default=1, help="readers at a time")
    parser.add_argument("--kept", type=Path, default=None, metavar="FOLDER", help="where inputs that crash are kept")
    parser.add_argument("--replay", type=Path, metavar="FILE", help="read one input again")
    args = parser.parse_args()
    from seeds import wrap

    from hostile import READERS

    wanted = args.readers or list(READERS)
    if args.replay is not None:
        print(READERS[wanted[0]](wrap(wanted[0], args.replay.read_bytes())))
        return 0
    kept = args.kept or Path(tempfile.mkdtemp(prefix="crashes-"))
    kept.mkdir(parents=True, exist_ok=True)
    with ThreadPoolExecutor(args.jobs) as pool:
        lines = pool.map(lambda reader: campaign(reader, args.seconds, kept), wanted)
        crashes = 0
        for line in lines:
            print(line, flush=True)
            crashes += "CRASH" in line
    print(f"{crashes} of {len(wanted)} readers crashed; inputs in {kept}")
    return 1 if crashes else 0


if __name__ == "__main__":
    raise SystemExit(main())
