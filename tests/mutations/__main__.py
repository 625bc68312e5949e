"""Which swaps of two fields nobody notices: one command, one table.

python -m tests.mutations [--out tests/mutations/RESULTS.md]

Every answer is described by fields. Of each object of each description the getters of any two
fields change places, then the headings of any two columns of each table; each time the checks of
the tests read the worked answer again, in this process. It ends with 1 where a swap survives.
"""

import argparse
import sys
import time
from pathlib import Path

from seasonboard.answers.questions import QUESTIONS
from tests.mutations.swaps import Swaps, swaps_of

HOW = """\
# Swaps of two fields

Made by `python -m tests.mutations`. Of each object of a description the getters of any two fields
change places, then the headings of any two columns of each table. A swap is noticed when a check
of `tests/answers/reading_worked.py` fails on the worked answer, or it cannot be read any more.

| question | getters | headings | noticed | survivors |
| --- | ---: | ---: | ---: | ---: |
"""


def main() -> int:
    """Swap, print the table, and write it."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutations", description=__doc__)
    parser.add_argument("--out", type=Path, default=Path(__file__).with_name("RESULTS.md"))
    asked = parser.parse_args()
    begin = time.perf_counter()
    every = [swaps_of(question) for question in QUESTIONS]
    told = HOW + "".join(map(_line, every))
    survivors = [f"- {one.question}{name}" for one in every for name in one.survivors]
    if survivors:
        told += "\n" + "\n".join(["Nobody noticed:", "", *survivors]) + "\n"
    print(told)
    asked.out.write_text(told, "utf-8")
    print(f"{asked.out}: {time.perf_counter() - begin:.0f} s", file=sys.stderr)
    return 1 if survivors else 0


def _line(swaps: Swaps) -> str:
    made, survivors = swaps.getters + swaps.headings, len(swaps.survivors)
    counts = (swaps.getters, swaps.headings, made - survivors, survivors)
    return f"| {swaps.question} | {' | '.join(map(str, counts))} |\n"


if __name__ == "__main__":
    sys.exit(main())
