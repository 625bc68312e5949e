"""`python -m tests.attack`: 2,000 random stores attacked; a table, in RESULTS.md beside."""

import argparse
import datetime as dt
import os
import sys
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from tests.attack.tries import Try, one_try

RESULTS = Path(__file__).with_name("RESULTS.md")


def report(tries: list[Try], seed: int) -> str:
    """Return what was tried and what was recovered, in Markdown."""
    recovered = [f"- {name}" for one in tries for name in one.recovered] or ["- nothing"]
    rows = (
        ("releases made", sum(one.releases for one in tries)),
        ("of them with new figures", sum(one.renewed for one in tries)),
        ("counts shown", sum(one.shown for one in tries)),
        ("counts hidden", sum(one.hidden for one in tries)),
        ("counts of 1 to 10 behind them", sum(one.small for one in tries)),
        ("recovered", sum(len(one.recovered) for one in tries)),
    )
    lines = "\n".join(f"| {name} | {count:,} |" for name, count in rows)
    listed = "\n".join(recovered)
    return f"""# What can a reader of every release work out?

{dt.datetime.now(dt.UTC):%Y-%m-%d} · seeds from {seed} · {len(tries):,} stores · made by
`python -m tests.attack --times {len(tries)} --seed {seed}`

Each store is drawn at random, released two to five times while it grows and is corrected, and read
whole: counts, curves with their at-risk numbers, ranges and dates. The reader solves for each count
and each change as a linear and as an integer program. He is told which counts did not change.
Recovered is a count or a change of 1 to 10 that can be one number only.

| | |
|---|--:|
{lines}

Recovered:

{listed}
"""


def main() -> int:
    """Run, print and keep; return 1 if anything was recovered."""
    parser = argparse.ArgumentParser(prog="python -m tests.attack", description=__doc__)
    parser.add_argument("--times", type=int, default=2_000, help="stores")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    seeds = range(asked.seed, asked.seed + asked.times)
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        tries = list(pool.map(one_try, seeds, chunksize=10))
    text = report(tries, asked.seed)
    RESULTS.write_text(text, encoding="utf-8")
    sys.stdout.write(text)
    return int(any(one.recovered for one in tries))


if __name__ == "__main__":
    sys.exit(main())
