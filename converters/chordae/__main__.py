"""Run chordae as ``python -m chordae``."""

from __future__ import annotations

import sys


def main() -> int:
    """Run the command line on ``sys.argv`` and return the exit code (0 clean, 1 issues, 2 could not run)."""
    from chordae.cli import main as run

    return run(sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
