"""Are the forecasts of orders truthful? Fresh sample seasons, rewound every third day.

python -m tests.truthfulness.forecasts [--seasons 10] [--seed 20261]

The same forecasts are told by the present method, by the former one, and by the generator's laws.
"""

import argparse

import numpy as np
import polars as pl

from seasonboard.answers.orders.forecast import STAGES, Histories, forecaster_of
from seasonboard.sample import season as sample
from seasonboard.sample.clubs import make_clubs
from seasonboard.sample.draws import Draws
from seasonboard.sample.schedule import DAY, END
from seasonboard.sample.turnaround import FITTED, MODELLED, NEVER
from seasonboard.stats.forecast_grading import EDGES, grading
from seasonboard.stats.stage_forecast import forecasts
from tests.truthfulness.former_forecast import former_chances
from tests.truthfulness.generator import Queue, generator_chance

EVERY = 3


def played(seed):
    """Return what happened in a season of a seed, as numbers."""
    streams = (Draws(seed, part) for part in range(sample._HABITS))
    return sample._play(make_clubs(1.0), seed, streams, return_ratio=1.0)


def season_forecasts(seed):
    """Return every forecast of one season: told, former, generator, came, stage, day, is_least."""
    season, rng = played(seed), np.random.default_rng(seed)
    orders, team = season.orders, season.people.athlete_team[season.orders.athlete]
    queues, batch = _queues(orders)
    games = _games(season)
    whole = _histories(orders)
    over = np.minimum(np.minimum(orders.cancelled, orders.fitted), orders.retired)
    first = int(orders.times[:, 0].min() // DAY)
    frames = []
    for day in range(first + 7, END // DAY - 1, EVERY):
        as_of = (day + 1) * DAY
        rows = np.flatnonzero((orders.times[:, 0] < as_of) & (over >= as_of))
        by = np.array([games[team[row]][np.searchsorted(games[team[row]], as_of)] for row in rows])
        kept = (by <= END) & (orders.cancelled[rows] >= by) if len(rows) else np.zeros(0, bool)
        rows, by = rows[kept], by[kept]
        if not len(rows):
            continue
        stage = np.where(orders.times[rows] < as_of, np.arange(8), -1).max(axis=1)
        tells = forecaster_of(whole.known_by(day + 1), day + 1)
        since, groups = orders.times[rows, stage] // DAY, [whole.groups[row] for row in rows]
        waiting = tells.waiting(stage, since, by // DAY, by % DAY / DAY, groups)
        told = forecasts(tells.model, waiting, tells.is_open)
        own = [queues.get((batch[row], orders.department[row])) for row in rows]
        frames.append(pl.DataFrame({
            "told": told.chance,
            "is_least": told.is_least, "stage": stage,
            "day": np.full(len(rows), day),
            "former": _former(orders, rows, as_of, by),
            "generator": [generator_chance(orders, row, as_of, until, queue, rng)
                          for row, until, queue in zip(rows, by, own, strict=True)],
            "came": (orders.fitted[rows] < by).astype(float),
        }))  # fmt: skip
    return pl.concat(frames).with_columns(seed=pl.lit(seed))


def _histories(orders):
    reached = np.where(orders.times < NEVER, orders.times // DAY, -1)
    ended = np.minimum(orders.cancelled, np.where(orders.fitted < NEVER, NEVER, orders.retired))
    over = np.where(ended < NEVER, ended // DAY, -1)
    share = np.where(orders.fitted < NEVER, orders.fitted % DAY / DAY, np.nan)
    cells = zip(orders.prints > 0, orders.department, orders.kind, strict=True)
    groups = [tuple(str(int(one)) for one in cell) for cell in cells]
    return Histories(reached, over, share, [""] * len(over), np.arange(len(over)), groups)


def _games(season):
    sessions = season.sessions
    team = season.clubs.squad_team[sessions.squad]
    return [
        np.append(np.sort(sessions.starts[sessions.game & (team == number)]), NEVER)
        for number in range(len(season.clubs.teams))
    ]


def _queues(orders):
    """Return the print queue of each batch that was followed together, by department."""
    generation = np.zeros(len(orders), dtype=np.int64)
    for _ in range(4):
        again = orders.before >= 0
        generation[again] = generation[orders.before[again]] + 1
    batch = generation + 10 * orders.returning
    queues = {}
    for key in set(zip(batch.tolist(), orders.department.tolist(), strict=True)):
        own = (batch == key[0]) & (orders.department == key[1])
        prints = int(orders.prints[own][0])
        if prints:
            ready = orders.times[own & (orders.times[:, MODELLED] < NEVER), MODELLED]
            queues[key] = Queue(np.sort(ready), prints)
    return queues, batch


def _former(orders, rows, as_of, by):
    begun = orders.times[:, 0] < as_of
    end = np.minimum(np.minimum(orders.fitted, orders.cancelled), as_of) - orders.times[:, 0]
    method = np.where(orders.times[:, 1] < NEVER, orders.phone, -1)
    likeness = np.stack((orders.department, orders.kind, method, orders.prints > 0), axis=1)
    done = orders.times[:, FITTED] < as_of
    position = np.cumsum(begun)[rows] - 1
    asked = orders.times[rows, 0]
    known = (likeness[begun], end[begun], done[begun])
    return former_chances(*known, position, as_of - asked, by - asked)


def forecasts_section(*, seasons, seed):
    """Return the table of the forecasts, as Markdown."""
    every = pl.concat(map(season_forecasts, range(seed, seed + seasons)))
    rows = every.filter(~pl.col("is_least"))
    paired = rows.filter(pl.col("former").is_not_nan())
    lines = [
        "## The forecasts of orders", "",
        f"{seasons} fresh sample seasons from seed {seed}, rewound every third day; made by",
        f"`python -m tests.truthfulness.forecasts --seasons {seasons} --seed {seed}`.",
        "Orders called off before the game are left out. Of the same forecasts:", "",
        "| | forecasts | told | came | Brier | former | the generator's own |",
        "| --- | --- | --- | --- | --- | --- | --- |", _line("all", paired),
        *(_line(name, paired.filter(pl.col("stage") == number))
          for number, name in enumerate(STAGES[:-1])), "",
        f"{every['is_least'].sum():,} more were lower bounds, {len(rows) - len(paired):,} had no "
        "former forecast; neither is in the table above.", "",
        f"The sum of the orders of a day has {_together(rows):.2f} times the "
        "standard deviation of independent ones.", "",
        "| told | forecasts | told | came |", "| --- | --- | --- | --- |",
    ]  # fmt: skip
    grade = grading(np.clip(rows["told"].to_numpy(), 0, 1), rows["came"].to_numpy(), EDGES)
    lines += [
        f"| {g.low:.0%} to {g.high:.0%} | {g.forecasts} | {g.told:.3f} | {g.came:.3f} |"
        for g in grade.groups
        if g.told is not None
    ]
    return "\n".join([*lines, ""])


def _line(name, rows):
    told, came, *others = (rows[column] for column in ("told", "came", "former", "generator"))
    scores = [f"{((one - came) ** 2).mean():.4f}" for one in (told, *others)]
    return (
        f"| {name} | {len(rows)} | {told.mean():.3f} | {came.mean():.3f} | {' | '.join(scores)} |"
    )


def _together(rows):
    days = rows.group_by("seed", "day").agg(
        off=(pl.col("came") - pl.col("told")).sum(),
        spread=(pl.col("told") * (1 - pl.col("told"))).sum(),
    )
    return float(np.sqrt((days["off"] ** 2).sum() / days["spread"].sum()))


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.truthfulness.forecasts")
    parser.add_argument("--seasons", type=int, default=10)
    parser.add_argument("--seed", type=int, default=20261)
    asked = parser.parse_args()
    print(forecasts_section(seasons=asked.seasons, seed=asked.seed))
