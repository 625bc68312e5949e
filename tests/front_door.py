"""A published table as a season, so that a published answer can be asked through the front door.

One tick of the published clock is one game of one team, a day apart. An athlete plays games
start + 1 to stop. The guard (of the chest, a midline site, so that one athlete is one site) is
worn in every game of a guarded interval. An event is a time-loss injury to the chest in game stop.
A tick may also be a play: an athlete then plays games of so many plays, in the last of an interval
those that are left of it.
"""

import csv
import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

REFERENCE = Path(__file__).parent / "reference"
FIRST_DAY = date(2000, 1, 1)
COLUMNS = {
    "departments": "department name plan time_zone",
    "teams": "team department sport sex",
    "roster": "athlete team season name",
    "sessions": "session team season starts_at setting",
    "attendance": "session athlete part plays",
    "guards": "guard athlete kind side purpose",
    "wear": "session guard",
    "injuries": "injury athlete occurred_on session area side returned_on",
}


@dataclass(frozen=True)
class Interval:
    """One published row: at risk in (start, stop], injured at stop or not."""

    athlete: str
    start: int
    stop: int
    event: bool
    guarded: bool


@dataclass(frozen=True)
class Injury:
    """An injury beside those that end intervals; `elsewhere` is one to the knee, never over."""

    athlete: str
    game: int
    elsewhere: bool = False


def reference_rows(name: str) -> list[dict[str, str]]:
    """Read a published table, without its comment lines."""
    with (REFERENCE / name).open(encoding="utf-8") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def freireich() -> list[Interval]:
    """Remission weeks as games: treated is guarded, a relapse is an injury."""
    return [
        Interval(
            f"{r['arm']}-{r['pair']}", 0, int(r["weeks"]), r["relapse"] == "1", r["arm"] == "6-MP"
        )
        for r in reference_rows("freireich_6mp.csv")
    ]


def stanford() -> list[Interval]:
    """Heart transplants in whole days: start rounded down, stop up; record 38 changes at day 4."""
    intervals = []
    for row in reference_rows("stanford_heart_startstop.csv"):
        start, stop = math.floor(float(row["start"])), math.ceil(float(row["stop"]))
        guarded = row["transplant"] == "1"
        if row["id"] == "38" and not guarded:
            stop = 4
        intervals.append(Interval(row["id"], start, stop, row["event"] == "1", guarded))
    return intervals


def valve_seats() -> tuple[list[Interval], list[Injury]]:
    """Engines as athletes followed to the end of their history, replacements as injuries."""
    rows = [
        (r["engine"], int(r["days"]), r["replacement"]) for r in reference_rows("valve_seat.csv")
    ]
    histories = [
        Interval(engine, 0, day, False, False) for engine, day, done in rows if done == "0"
    ]
    return histories, [Injury(engine, day) for engine, day, done in rows if done == "1"]


def infections() -> list[Interval]:
    """Serious infections in a trial of interferon gamma: treated is guarded."""
    rows = reference_rows("cgd_recurrent.csv")
    times = [(row["id"], int(row["tstart"]), int(row["tstop"])) for row in rows]
    return [
        Interval(*time, row["status"] == "1", row["treat"] == "rIFN-g")
        for time, row in zip(times, rows, strict=True)
    ]


def two_causes() -> tuple[list[Interval], list[Injury]]:
    """Thirty-five patients: cause 1 is an injury to the site, cause 2 one elsewhere."""
    rows = list(enumerate(reference_rows("competing_risks_35.csv")))
    intervals = [
        Interval(f"P{i:02}", 0, int(r["days"]), r["status"] == "1", False) for i, r in rows
    ]
    also = [Injury(f"P{i:02}", int(r["days"]), True) for i, r in rows if r["status"] == "2"]
    return intervals, also


def channing_men() -> list[Interval]:
    """Men of a retirement centre, months of age as games; the one who left as he came is out."""
    ages = ("entry_age_months", "exit_age_months")
    return [
        Interval(row["id"], *(int(row[age]) for age in ages), row["died"] == "1", False)
        for row in reference_rows("channing_house.csv")
        if row["sex"] == "male" and row["id"] != "422"
    ]


def write_season(
    folder: Path, intervals: Sequence[Interval], also: Sequence[Injury] = (), plays: int = 0
) -> Path:
    """Write the tables of the season and return their folder; with `plays` its ticks are plays.

    Raises:
        ValueError: An interval ends where it starts: nobody can be at risk in it.
    """
    empty = [i for i in intervals if i.stop <= i.start]
    if empty:
        named = ", ".join(i.athlete for i in empty)
        raise ValueError(f"no game lies between entry and exit of {named}")
    athletes = sorted({i.athlete for i in intervals})
    guarded = {i.athlete for i in intervals if i.guarded}
    played: dict[str, list[tuple[int, bool, object]]] = defaultdict(list)
    hurt = []
    for i in sorted(intervals, key=lambda one: one.start):
        own = played[i.athlete]
        for before in range(i.start, i.stop, plays or 1):
            game = len(own) + 1 if plays else before + 1
            own.append((game, i.guarded, min(plays, i.stop - before) or ""))
        hurt += [_injury(f"I-{i.athlete}-{i.stop}", i.athlete, own[-1][0])] * i.event
    last = max(game for own in played.values() for game, _, _ in own)
    tables = {
        "departments": [("D", "Published data", "onsite printer", "UTC")],
        "teams": [("T", "D", "clock", "mixed")],
        "roster": [(a, "T", "S", a) for a in athletes],
        "sessions": [
            (f"G{k}", "T", "S", f"{_day(k)}T18:00:00", "game") for k in range(1, last + 1)
        ],
        "attendance": [(f"G{k}", a, "full", n) for a in athletes for k, _, n in played[a]],
        "guards": [(f"guard-{a}", a, "chest", "midline", "preventive") for a in sorted(guarded)],
        "wear": [(f"G{k}", f"guard-{a}") for a in athletes for k, worn, _ in played[a] if worn],
        "injuries": [
            *hurt,
            *(_injury(f"A-{n}", i.athlete, i.game, i.elsewhere) for n, i in enumerate(also)),
        ],
    }
    folder.mkdir(parents=True, exist_ok=True)
    for name, rows in tables.items():
        with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as out:
            csv.writer(out).writerows([COLUMNS[name].split(), *rows])
    return folder


def _injury(name: str, athlete: str, game: int, elsewhere: bool = False) -> tuple[str, ...]:
    site = ("knee", "left", "") if elsewhere else ("chest", "midline", _day(game + 30))
    return (name, athlete, _day(game), f"G{game}", *site)


def _day(game: int) -> str:
    return (FIRST_DAY + timedelta(days=game)).isoformat()
