"""One invented season, all tables."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import polars as pl

from seasonboard.errors import SeasonboardError
from seasonboard.sample.clubs import Clubs, make_clubs
from seasonboard.sample.draws import Draws
from seasonboard.sample.exposure import Attendance, apply_injuries, listed, plan_attendance
from seasonboard.sample.guard_tables import (
    guard_keys,
    guards_frame,
    offers_frame,
    printers_frame,
    stages_frame,
)
from seasonboard.sample.guards import Offers, make_offers, preventive_orders, return_orders
from seasonboard.sample.injuries import (
    Injuries,
    Worn,
    earlier_injuries,
    make_injuries,
    out_through_injury,
    ratios_worn,
)
from seasonboard.sample.injury_table import guard_was_on, injuries_frame, return_requests
from seasonboard.sample.made_of import rules_frame, with_build
from seasonboard.sample.people import People, make_people, roster_frame
from seasonboard.sample.returning import back_sooner
from seasonboard.sample.schedule import Sessions, day_number, make_sessions
from seasonboard.sample.session_tables import attendance_frame, decisions_frame, sessions_frame
from seasonboard.sample.truth import DEFAULT_SEED, DEFAULT_SIZE, truth
from seasonboard.sample.turnaround import Orders, with_remakes
from seasonboard.sample.turns import turns_frame
from seasonboard.sample.wear import Recording, Wear, in_hand, make_recording, make_wear, wear_frame

TABLES = (
    *("departments", "printers", "teams", "roster", "sessions", "attendance", "guards", "stages"),
    *("wear", "injuries", "offers", "decisions", "turns", "rules"),
)
_YEAR_BEFORE = np.array([day_number(dt.date(2025, 9, 1)), day_number(dt.date(2026, 4, 20))])
# Streams of their own, so that what is recorded moves nothing else; chosen as the salt of draws is.
_RECORDING, _WAS_ON, _TURNS, _BUILD, _SOONER = 1_004, 2_004, 3_004, 4_004, 5_004
_HABITS = 1_000  # this stream is started afresh for each make of guard: a habit is the athlete's


@dataclass(frozen=True, slots=True)
class _Played:
    """Everything that happened, as numbers; the tables are written from it."""

    clubs: Clubs
    sessions: Sessions
    people: People
    offers: Offers
    attendance: Attendance
    orders: Orders
    wear: Wear
    injuries: Injuries
    recording: Recording
    was_on: pl.Series
    seed: int


def make_season(
    *, seed: int = DEFAULT_SEED, size: float = DEFAULT_SIZE, return_ratio: float = 1.0
) -> dict[str, pl.DataFrame]:
    """An invented season with known truth, as one frame for each table.

    Args:
        seed: Any whole number from 0; the same seed and size give the same season.
        size: 1 is three departments and about 400 athletes; up to 400.
        return_ratio: How much likelier a return is on a day out with a return guard fitted.

    Returns:
        The tables by name, every column present. Dates are dates; instants are ISO 8601 text,
        in the department's local time or, for some departments, with offset.

    Raises:
        SeasonboardError: The seed is negative, or the size or the ratio out of range.
    """
    if seed < 0:
        raise SeasonboardError(f"The seed {seed} is negative.", "Give a whole number from 0 up.")
    if not 1 <= return_ratio <= 10:
        raise SeasonboardError(
            f"The return ratio {return_ratio} is out of range.", "Give 1 (no effect) to 10."
        )
    clubs = make_clubs(size)
    streams = (Draws(seed, part) for part in range(_HABITS))
    return _tables(_play(clubs, seed, streams, return_ratio), streams)


def _play(clubs: Clubs, seed: int, streams: Iterator[Draws], return_ratio: float) -> _Played:
    """The season in its order: who, when, guards meant to be worn, injuries, return guards."""
    sessions = make_sessions(clubs, next(streams))
    people = make_people(clubs, next(streams))
    plan = plan_attendance(sessions, people, next(streams))
    offers = make_offers(clubs, people, next(streams))
    asked = preventive_orders(offers, clubs, people, next(streams))
    preventive = with_remakes(asked, next(streams))
    meant = make_wear(preventive, plan, Draws(seed, _HABITS), next(streams))
    injuries = _injuries(clubs, people, plan, ratios_worn(meant, preventive), streams)
    wanted = return_requests(injuries, preventive, next(streams))
    returns = with_remakes(return_orders(wanted, clubs, people, next(streams)), next(streams))
    if return_ratio != 1:
        injuries = back_sooner(injuries, returns, return_ratio, Draws(seed, _SOONER))
    here = injuries.keep(injuries.row >= 0)
    attendance = apply_injuries(plan, *out_through_injury(plan, here, next(streams)))
    worn_back = make_wear(returns, attendance, Draws(seed, _HABITS), next(streams))
    worn = meant.keep(attendance.took_part[meant.row])  # who was out after all wore nothing
    before = len(preventive)
    moved = np.where(returns.before >= 0, returns.before + before, -1)
    orders = preventive.joined(replace(returns, before=moved))
    wear = worn.joined(replace(worn_back, order=worn_back.order + before))
    recording = make_recording(
        wear, orders, attendance, len(sessions.squad), Draws(seed, _RECORDING)
    )
    held = in_hand(orders, attendance)
    was_on = guard_was_on(injuries, orders, held, wear, Draws(seed, _WAS_ON))
    made = clubs, sessions, people, offers, attendance, orders, wear, injuries, recording, was_on
    return _Played(*made, seed)


def _tables(played: _Played, streams: Iterator[Draws]) -> dict[str, pl.DataFrame]:
    """All tables, in the order of TABLES."""
    clubs, people, orders = played.clubs, played.people, played.orders
    attendance = played.attendance
    sessions = sessions_frame(played.sessions, clubs, played.recording.complete)
    keys = sessions["session"]
    attended = attendance_frame(attendance, keys, people, next(streams))
    worn_in = keys.gather(attendance.session)
    tables = {
        "departments": clubs.departments,
        "printers": printers_frame(clubs),
        "teams": clubs.teams_frame(),
        "roster": roster_frame(clubs, people, next(streams)),
        "sessions": sessions,
        "attendance": attended.filter(pl.Series(listed(attendance, clubs))),
        "guards": guards_frame(orders, people, clubs, next(streams)),
        "stages": stages_frame(orders, clubs, next(streams)),
        "wear": wear_frame(played.wear, played.recording, orders, worn_in, next(streams)),
        "injuries": injuries_frame(played.injuries, played.was_on, worn_in, people, next(streams)),
        "offers": offers_frame(played.offers, people, next(streams)),
        "decisions": decisions_frame(clubs),
    }
    tables["turns"] = turns_frame(tables, Draws(played.seed, _TURNS))
    build = Draws(played.seed, _BUILD)
    whole = with_build(tables["guards"], orders, guard_keys(orders), (clubs, people), build)
    tables |= {"guards": whole, "rules": rules_frame(clubs)}
    return {name: tables[name] for name in TABLES}


def _injuries(
    clubs: Clubs, people: People, plan: Attendance, worn: Worn, streams: Iterator[Draws]
) -> Injuries:
    """Those of the year before, then those of the season."""
    athletes = len(people.keys)
    number = round(truth().earlier_season_injuries_per_three_departments * len(clubs.pattern) / 3)
    late = people.row_athlete[people.joined > 0]
    there = np.setdiff1d(np.arange(athletes), late)  # nobody is hurt before joining
    earlier = earlier_injuries(there, max(number, 2), _YEAR_BEFORE, next(streams))
    frailty = next(streams).frailty(athletes)
    season = make_injuries(plan, frailty, worn, earlier, next(streams))
    return earlier.joined(season)
