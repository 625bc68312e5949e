"""How long Compare, Games, Orders and Capacity take when they are asked again, as a table.

    python -m tests.benchmarks.warm [--runs 30]

Asks each of the sample season in scopes whose working tables lie ready. Times are of the processor,
best and median of the runs. Beside them stands lifelines, which in the same run fits the curves of
the followed shins; answers and lifelines take turns, so that the machine's speed and what else it
does cancel out of the ratio of medians.
"""

import argparse
import time
from collections.abc import Callable
from statistics import median

from seasonboard.answers.games.parts import Clock, ticking_params
from seasonboard.answers.questions import CAPACITY, COMPARE, GAMES, ORDERS
from seasonboard.answers.source import AnswerSource
from seasonboard.sample_store import sample_store
from seasonboard.scope import read_scope
from seasonboard.store.store import open_store
from tests.benchmarks.__main__ import followed_rows, lifelines_fit

SCOPES = {"all kinds": {}, "shin": {"kind": "shin"}, "one department": {"department": "LF"}}


def processor_time(act: Callable[[], object]) -> float:
    """Return the processor's time for one act, in milliseconds."""
    begin = time.process_time()
    act()
    return (time.process_time() - begin) * 1000


def main() -> None:
    """Ask, time, print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=30)
    runs = parser.parse_args().runs
    print("| answer | best, ms | median, ms | times lifelines |\n| --- | --- | --- | --- |")
    with open_store(sample_store()) as store:
        board = AnswerSource(store, "benchmark")
        shin = ticking_params(read_scope(SCOPES["shin"], board.scope_values), Clock.GAMES)
        fit = lifelines_fit(followed_rows(store, shin))
        for name, parts in SCOPES.items():
            scope = read_scope(parts, board.scope_values)
            for question in (COMPARE, GAMES, ORDERS, CAPACITY):
                for _ in range(3):
                    board.ask(question, scope)
                acts = (lambda: board.ask(question, scope), fit)  # noqa: B023 - done with at once
                own, theirs = zip(
                    *([processor_time(act) for act in acts] for _ in range(runs)), strict=True
                )
                times = f"{min(own):.0f} | {median(own):.0f} | {median(own) / median(theirs):.1f}"
                print(f"| {question.name}, {name} | {times} |")


if __name__ == "__main__":
    main()
