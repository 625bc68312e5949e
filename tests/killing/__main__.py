"""`python -m tests.killing --times 50`: kills loads, undos, migrations and backups; a table."""

import argparse
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path

from tests.killing.acts import ACTS
from tests.killing.harness import Tally, run


def table(tallies: Mapping[str, Tally]) -> str:
    """Return the tallies as text."""
    lines = [f"{'during':<12} {'killed':>7} {'ended':>6} {'as before':>10} {'as after':>9} wrong"]
    lines += [
        f"{name:<12} {one.killed:>7} {one.ended:>6} {one.left['before']:>10} "
        f"{one.left['after']:>9} {len(one.wrong):>5}"
        for name, one in tallies.items()
    ]
    lines += [f"  {name}: {said}" for name, one in tallies.items() for said in one.wrong]
    return "\n".join(lines)


def main() -> int:
    """Kill, print, and return 1 if anything was wrong."""
    parser = argparse.ArgumentParser(prog="python -m tests.killing", description=__doc__)
    parser.add_argument("--times", type=int, default=50, help="kills of each act")
    parser.add_argument("--sessions", type=int, default=1200, help="times 50 rows in the load")
    parser.add_argument("--seed", type=int, default=20261)
    wishes = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        tallies = run(
            Path(folder),
            times=dict.fromkeys(ACTS, wishes.times),
            sessions=wishes.sessions,
            seed=wishes.seed,
        )
    print(table(tallies))
    return int(any(one.wrong for one in tallies.values()))


if __name__ == "__main__":
    sys.exit(main())
