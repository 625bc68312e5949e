"""Random seasons for the roster: with stages of guards, remakes, reasons and days of joining."""

from datetime import date, datetime, time, timedelta

from hypothesis import strategies as st

from tests.queries.build import Row, Season
from tests.queries.seasons import seasons

STAGES = ("requested", "scanned", "printed", "delivered", "fitted", "retired", "cancelled")


@st.composite
def clubs(draw: st.DrawFn) -> Season:
    """Draw a season with stages, remakes, reasons and days of joining."""
    club = draw(seasons())
    for row in club.attendance:
        reasons = [None, "injury", "illness", "selection", "other"]
        row["reason"] = draw(st.sampled_from(reasons)) if row["part"] != "full" else None
    for row in club.roster:
        if draw(st.integers(0, 4)) == 0:
            year = {"2025": 2025, "2026": 2026}[row["season"]]
            row["joined_on"] = date(year, 9, draw(st.integers(1, 5)))
    for row in club.sessions:
        parts = [None, "preseason", "regular"]
        row["season_part"] = draw(st.sampled_from(parts))
    for row in club.guards:
        draw(_stages(club, row))
    return club


@st.composite
def _stages(draw: st.DrawFn, club: Season, guard: Row) -> None:
    """Draw the stages of one guard: none, some or all, in order, with a cancelled end or not."""
    earlier = [
        g["guard"]
        for g in club.guards
        if g["athlete"] == guard["athlete"] and g["kind"] == guard["kind"]
        and g["side"] == guard["side"] and g["guard"] < guard["guard"]
    ]  # fmt: skip
    if earlier and draw(st.booleans()):
        guard["remake_of"], guard["remake_reason"] = earlier[-1], "fit"
    reached = draw(st.integers(0, 6))
    at = datetime.combine(
        date(draw(st.sampled_from([2025, 2026])), 9, draw(st.integers(1, 12))), time(9)
    )
    for stage in STAGES[:reached]:
        club.stages.append({"guard": guard["guard"], "stage": stage, "reached_at": at})
        at += timedelta(hours=draw(st.integers(1, 60)))
    if 0 < reached < 5 and draw(st.integers(0, 3)) == 0:
        club.stages.append({"guard": guard["guard"], "stage": "cancelled", "reached_at": at})
