"""How fast the answers are: one command, one table.

    python -m tests.benchmarks [--size 37]

Makes a sample season of about a million attendance rows, loads it, and times each answer: in the
query, in the measure, as a whole, as a command. In the same run lifelines makes the same two
Kaplan-Meier curves from the same rows (one row per followed site and game), already in memory;
so do we, by counting the rows per tick and estimating on the counts (“same rows”). The ratio says
how many times longer lifelines takes. Best of several runs; the machine's speed cancels out of
the ratio. “query” counts from the
raw tables in the store, “measure” estimates on its counts, “answer” is both with the words,
“command” a whole process. In brackets: the first asking in a scope, whose working tables do not
lie ready yet.
"""

import argparse
import os
import platform
import subprocess
import sys
import tempfile
import time
import warnings
from collections.abc import Callable
from pathlib import Path

import numpy as np
import polars as pl
from numpy.typing import NDArray

from seasonboard.answers.games.beside_curves import count_ticks
from seasonboard.answers.games.parts import Clock, ticking_params
from seasonboard.answers.questions import COMPARE, GAMES
from seasonboard.answers.source import AnswerSource
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.sample import write_season
from seasonboard.scope import Scope, read_scope
from seasonboard.stats.survival import TickCount, kaplan_meier
from seasonboard.store.catalogue import catalogue
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.query_cursor import QueryCursor
from seasonboard.store.store import Store, open_store

RUNS = 5
ROWS = """
SELECT guarded, tick - 1 AS entry, tick AS leaving, injured
FROM followed_sites($purpose, false)
WHERE is_followed
"""


def best(act: Callable[[], object], runs: int = RUNS) -> float:
    """Return the shortest time of several runs, in milliseconds."""
    times = []
    for _ in range(runs):
        begin = time.perf_counter()
        act()
        times.append(time.perf_counter() - begin)
    return min(times) * 1000


def command(*words: object, runs: int = 3) -> float:
    """Return the time of a whole command, in milliseconds."""
    done = [sys.executable, "-m", "seasonboard", *map(str, words)]

    def run() -> None:
        if subprocess.run(done, check=False, capture_output=True).returncode not in {0, 1}:
            raise RuntimeError(f"{' '.join(done)} was refused")  # 1: something needs attention

    return best(run, runs)


def followed_rows(store: Store, params: dict[str, object]) -> pl.DataFrame:
    """Return one row per followed site and tick: guarded, entry, leaving, injured."""
    cursor = QueryCursor(store._connection.cursor())
    cursor.rows(catalogue()["games/ticks"], params)  # lays the working tables ready
    return pl.DataFrame(cursor.cursor.sql(ROWS, params={"purpose": params["purpose"]}))


def lifelines_fit(rows: pl.DataFrame) -> Callable[[], None]:
    """Return what fits both curves with lifelines."""
    import pandas as pd

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from lifelines import KaplanMeierFitter

        table = pd.DataFrame({name: rows[name].to_numpy() for name in rows.columns})
        groups = [group for _, group in table.groupby("guarded")]

        def fit() -> None:
            for group in groups:
                KaplanMeierFitter().fit(group["leaving"], group["injured"], entry=group["entry"])

        return fit


def spell_counts(entry: NDArray, leaving: NDArray, injured: NDArray) -> list[TickCount]:
    """Count who is at risk at each tick, in (entry, leaving]."""
    size = int(leaving.max()) + 2
    came, went = np.bincount(entry + 1, minlength=size), np.bincount(leaving, minlength=size)
    injuries = np.bincount(leaving[injured.astype(bool)], minlength=size)
    at_risk = np.cumsum(came) - np.concatenate(([0], np.cumsum(went)[:-1]))
    columns = (at_risk, injuries, came, went - injuries)
    return [TickCount(k, *(int(c[k]) for c in columns)) for k in np.flatnonzero(at_risk).tolist()]


def our_time(rows: pl.DataFrame) -> float:
    """Return our time for both curves."""
    groups = [
        [group[name].to_numpy() for name in ("entry", "leaving", "injured")]
        for _, group in rows.group_by("guarded")
    ]

    def fit() -> None:
        for group in groups:
            kaplan_meier(spell_counts(*group))

    return best(fit)


def games_line(board: AnswerSource, store: Store, scope: Scope, store_path: Path, name: str) -> str:
    """Time the Games answer and lifelines on one scope."""
    params = ticking_params(scope, Clock.GAMES)
    frame = store.read("games/ticks", **params)
    query = best(lambda: store.read("games/ticks", **params))

    def measure() -> None:
        for guarded in (True, False):
            kaplan_meier(count_ticks(frame, guarded=guarded))

    answer = best(lambda: board.ask(GAMES, scope))
    whole = command(
        "ask", "games", "--store", store_path, "--format", "json", "--kind", ",".join(scope.kinds)
    )
    rows = followed_rows(store, params)
    theirs, ours = best(lifelines_fit(rows), runs=3), our_time(rows)
    return (
        f"| games, {name} | {len(rows):,} | {query:.0f} | {best(measure):.1f} | {answer:.0f} "
        f"| {whole:.0f} | {ours:.1f} | {theirs:.0f} | {theirs / ours:.1f} |"
    )


def compare_line(
    board: AnswerSource, store: Store, scope: Scope, store_path: Path, name: str
) -> str:
    """Time the Compare answer on one scope."""
    frame = store.read("compare/strata", **scope.params())
    query = best(lambda: store.read("compare/strata", **scope.params()))
    answer = best(lambda: board.ask(COMPARE, scope))
    whole = command(
        "ask", "compare", "--store", store_path, "--format", "json", "--kind", ",".join(scope.kinds)
    )
    exposures = frame.filter(frame["comparison"] == "crude").select(
        "exposures_guarded", "exposures_unguarded"
    )
    total = sum(exposures.row(0)) if len(exposures) else 0
    return f"| compare, {name} | {total:,} | {query:.0f} | | {answer:.0f} | {whole:.0f} | | | |"


def work_lines(board: AnswerSource, store: Store, scope: Scope, store_path: Path) -> list[str]:
    """Time the answers of the working season: the first asking in a scope, and those after it."""
    lines = []
    for question, answer in {
        "week": board.week,
        "roster": board.roster,
        "orders": board.orders,
        "turnaround": board.turnaround,
        "remakes": board.remakes,
        "allotment": board.allotment,
        "take-up": board.take_up,
        "departments": board.departments,
        "pitch": board.pitch,
        "checks": board.checks,
    }.items():
        store._cursors.clear()
        begin = time.perf_counter()
        answer(scope)
        first = (time.perf_counter() - begin) * 1000
        again = best(lambda answer=answer: answer(scope))
        options = ("--store", store_path, "--format", "json", "--department")
        whole = command("ask", question, *options, ",".join(scope.departments or ()))
        lines.append(
            f"| {question}, one department | | | | {again:.0f} ({first:.0f}) | {whole:.0f} | | | |"
        )
    return lines


def main() -> None:
    """Make, load, time, print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--size", type=float, default=37)
    size = parser.parse_args().size
    os.environ["XDG_CONFIG_HOME"] = tempfile.mkdtemp()
    with tempfile.TemporaryDirectory() as folder:
        tables, path = Path(folder) / "tables", Path(folder) / "season.duckdb"
        write_season(tables, size=size)
        begin = time.perf_counter()
        load_paths(path, [tables], UnattendedLoad())
        loading = time.perf_counter() - begin
        with open_store(path) as store:
            board = AnswerSource(store, "benchmark")
            (rows,) = store._connection.sql("SELECT count(*) FROM store.attendance").fetchall()[0]
            print(
                f"{rows:,} attendance rows, loaded in {loading:.1f} s; times in ms, best of {RUNS}"
            )
            print(f"Python {platform.python_version()}, {os.cpu_count()} cores\n")
            print(
                "| what | rows | query | measure | answer | command | same rows, ours "
                "| same rows, lifelines | ratio |\n|" + " --- |" * 9
            )
            department = board.scope_values.values["department"][0].value
            everything = read_scope({}, board.scope_values)
            shin = read_scope({"kind": "shin"}, board.scope_values)
            one = read_scope(
                {"kind": "shin", "department": department, "season": "2026 fall"},
                board.scope_values,
            )
            for scope, name in (
                (everything, "all kinds"),
                (shin, "shin"),
                (one, "shin, one department-season"),
            ):
                print(games_line(board, store, scope, path, name))
                print(compare_line(board, store, scope, path, name))
            working = read_scope({"department": department}, board.scope_values)
            print("\n".join(work_lines(board, store, working, path)))


if __name__ == "__main__":
    main()
