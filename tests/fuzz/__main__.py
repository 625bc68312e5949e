"""`python -m tests.fuzz`: 3,000 files made wrong and loaded; a table, kept in RESULTS.md beside."""

import argparse
import datetime as dt
import os
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path

from tests.fuzz.harness import MOST_BYTES, MOST_SECONDS, Tally, peak_bytes, run

RESULTS = Path(__file__).with_name("RESULTS.md")


def table(tallies: Mapping[str, Tally]) -> str:
    """Return the tallies as a table in Markdown."""
    lines = [
        "| file | files | loaded | refused in words | slowest | wrong |",
        "|---|--:|--:|--:|--:|--:|",
    ]
    lines += [
        f"| {kind} | {one.files:,} | {one.loaded:,} | {one.refused:,} | {one.slowest_s:.1f} s | "
        f"{len(one.wrong)} |"
        for kind, one in tallies.items()
    ]
    return "\n".join(lines)


def report(tallies: Mapping[str, Tally], times: int, seed: int) -> str:
    """Return what was run and what came of it."""
    wrong = [said for one in tallies.values() for said in one.wrong]
    peak = peak_bytes()
    if peak > MOST_BYTES:
        wrong.append(f"a process took {peak / (1 << 30):.1f} GB")
    listed = "\n".join(f"- {said}" for said in wrong) or "- nothing"
    return f"""# What does the command say to files that are wrong?

{dt.datetime.now(dt.UTC):%Y-%m-%d} · seed {seed} · {times:,} files · made by
`python -m tests.fuzz --times {times} --seed {seed}`

Each file is a good one made wrong by its bytes, its cells or its structure. It is loaded by the
command into a fresh store. Wrong is: a traceback; a refused load after which the store exports
something else; over {MOST_SECONDS} s; over {MOST_BYTES >> 30} GB.

{table(tallies)}

Most memory of one process: {peak / (1 << 20):,.0f} MB.

Wrong:

{listed}
"""


def main() -> int:
    """Run, print and keep; return 1 if anything was wrong."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--times", type=int, default=3_000, help="files")
    parser.add_argument("--seed", type=int, default=20261)
    wishes = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        for name in ("XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME"):
            os.environ[name] = f"{folder}/home"
        tallies = run(
            Path(folder), wishes.times, wishes.seed, tell=lambda said: print(said, file=sys.stderr)
        )
    text = report(tallies, wishes.times, wishes.seed)
    print(text)
    RESULTS.write_text(text, "utf-8")
    return int("- nothing" not in text)


if __name__ == "__main__":
    sys.exit(main())
