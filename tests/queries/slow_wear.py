"""Worn, not worn or not known, by plain loops over rows, written from the definitions."""

from datetime import datetime
from zoneinfo import ZoneInfo

from hypothesis import strategies as st

from tests.queries.build import Row, Season


def wear_of(season: Season, s: Row) -> str:
    """Return how completely a session's wear is recorded."""
    if s.get("wear_complete") == "yes":
        return "complete"
    denied = {w["session"] for w in season.wear if w.get("worn") == "no"}
    for other in season.sessions:
        if (other["team"], other["season"]) == (s["team"], s["season"]):
            said = other.get("wear_complete") is not None or other["session"] in denied
            if said and season.instant(other["session"]) <= season.instant(s["session"]):
                return "not complete"
    return "assumed"


def worn_rows(season: Season) -> list[Row]:
    return [w for w in season.wear if w.get("worn") != "no"]


def in_hand(season: Season, guard: Row, at: datetime) -> bool:
    """Say whether an athlete had a guard at an instant."""
    stages = [q for q in season.stages if q["guard"] == guard["guard"]]
    began = [q["reached_at"] for q in stages if q["stage"] == "fitted"] or [
        season.instant(w["session"]) for w in worn_rows(season) if w["guard"] == guard["guard"]
    ]
    over = [q["reached_at"] for q in stages if q["stage"] in {"retired", "cancelled"}]
    for other in season.guards:
        is_next = other.get("remake_of") == guard["guard"] != other["guard"]
        if is_next and other["athlete"] == guard["athlete"]:
            over += [
                q["reached_at"]
                for q in season.stages
                if q["guard"] == other["guard"] and q["stage"] == "fitted"
            ]
    return bool(began) and min(began) <= at and all(at < one for one in over)


def is_unknown(season: Season, guard: Row, s: Row) -> bool:
    """Say whether a guard may have been worn by its athlete in a session, and nobody wrote it."""
    has_row = any((w["session"], w["guard"]) == (s["session"], guard["guard"]) for w in season.wear)
    part = next(
        (a["part"] for a in season.attendance
         if (a["session"], a["athlete"]) == (s["session"], guard["athlete"])), "out"
    )  # fmt: skip
    there = in_hand(season, guard, season.instant(s["session"]).astimezone(ZoneInfo("UTC")))
    return not has_row and part != "out" and there and wear_of(season, s) == "not complete"


@st.composite
def partly_recorded(draw: st.DrawFn, drawn: st.SearchStrategy[Season]) -> Season:
    """Draw a season in which some say what was not worn, whether all is recorded, what was on."""
    season = draw(drawn)
    share = draw(st.sampled_from([0, 1, 3]))  # of four
    for table, column, words in (
        ("sessions", "wear_complete", ("yes", "no")),
        ("wear", "worn", ("yes", "no")),
        ("wear", "kept_on", ("all", "part")),
        ("injuries", "was_on", ("yes", "no")),
    ):
        for row in getattr(season, table):
            if draw(st.integers(0, 3)) < share:
                row[column] = draw(st.sampled_from(words))
    return season
