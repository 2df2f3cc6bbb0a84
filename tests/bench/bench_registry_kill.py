"""Kill a submitting process at random moments many times, and print what was found each time.

python tests/bench/bench_registry_kill.py --kills 120
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from registry_data import deposit, hearts, registry
from registry_killing import LONGEST, in_clean_process


def main() -> int:
    """Run, print, and return 1 if anything but the old or the new state was found."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--kills", type=int, default=120)
    parser.add_argument("--hearts", type=int, default=20, help="hearts of each deposit")
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        top = Path(folder)
        names = [f"invented-{number:02d}" for number in range(12)]
        deposits = [deposit(top / name, hearts(range(args.hearts), name), name) for name in names]
        begun = time.monotonic()
        given = {"empty": registry(top / "empty"), "work": top / "work", "deposits": deposits}
        found = in_clean_process("chance", args.kills * LONGEST, **given, kills=args.kills, seed=args.seed)
    for state, count in sorted(found.items()):
        print(f"{count:6}  {state}")
    print(f"{args.kills} kills in {time.monotonic() - begun:.0f} s, deposits of {args.hearts} hearts, seed {args.seed}")
    return int(any(not one.startswith(("old state", "new state", "finished")) for one in found))


if __name__ == "__main__":
    raise SystemExit(main())
