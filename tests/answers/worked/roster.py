"""A roster made by hand: one athlete hurt, with two guards; of the other hardly a thing."""

from datetime import UTC, date, datetime

from seasonboard.answers.base import Summary
from seasonboard.answers.orders.lateness import LateAfter
from seasonboard.answers.roster.availability import (
    Availability,
    AvailabilityTotal,
    PartRate,
    SessionAvailability,
)
from seasonboard.answers.roster.parts import (
    ComparableInjuries,
    GuardState,
    Headline,
    NextGame,
    OpenInjury,
    RosterAnswer,
    RosterAthlete,
    RosterGuard,
    Status,
    StripCell,
    StripSession,
)
from seasonboard.scope import Scope
from seasonboard.stats.days_lost import Burden, Severity, SeverityBin
from seasonboard.stats.estimate import Estimate, Quantile
from seasonboard.stats.rates import Rate
from tests.answers.worked.returns import OUT

GAME = NextGame(
    team="N-WSOC", team_name="North women's soccer", season="2026 fall", department="N",
    department_name="North College", session="N-G7",
    starts_at=datetime(2026, 9, 24, 18, tzinfo=UTC), played_on=date(2026, 9, 24),
    label="at the lake", rostered=20, is_listed=True, why="",
    strip_sessions=(StripSession("N-P6", date(2026, 9, 18), "practice", "indoors"),),
)  # fmt: skip
NO_GAME = NextGame(
    team="N-MIH", team_name="North men's hockey", season="2026 winter", department="M",
    department_name="Middle College", session=None, starts_at=None, played_on=None, label=None,
    rostered=21, is_listed=False, why="no session of this season is recorded", strip_sessions=(),
)  # fmt: skip
FITTED = RosterGuard(
    guard="G-1", kind="shin", side="left", purpose="preventive", state=GuardState.REMAKE,
    is_in_hand=True, is_late=False, stage="fitted", asked_on=date(2026, 9, 1),
    fitted_on=date(2026, 9, 5), age_days=None, games_missed=4, taken_part=8, worn=6,
    not_known=2, worn_share=0.75, why="", last_worn_on=date(2026, 9, 17), remade_by="G-2",
    hurt_on=date(2026, 9, 16), because="remake G-2 was asked for",
)  # fmt: skip
MADE = RosterGuard(
    guard="G-2", kind="knee", side="both", purpose="return", state=GuardState.MAKING,
    is_in_hand=False, is_late=True, stage="scanned", asked_on=date(2026, 9, 12), fitted_on=None,
    age_days=9, games_missed=3, taken_part=0, worn=1, not_known=0, worn_share=None,
    why="not fitted yet", last_worn_on=None, remade_by=None, hurt_on=None,
    because="scanned, asked for 8 days ago",
)  # fmt: skip
HURT = RosterAthlete(
    athlete="A-1", name="Ada Lee", team="N-WSOC", season="2026 fall", jersey="17",
    position="left back", position_group="defender", status=Status.OUT, reason="injury",
    because="left knee, day 3", last_on=date(2026, 9, 18), sessions_since=2,
    injury=OpenInjury("I-1", "knee", "left", date(2026, 9, 15), 5, 1),
    comparable=ComparableInjuries("knee", 11, 3, 14), days_lost=13,
    expected_back_why="none is predicted", guards=(FITTED, MADE), taken_part=16, worn=12,
    worn_share=0.7, worn_share_why="", needs=("Replace it.", "Record attendance."),
    attention="out, injured or ill",
    strip=(StripCell("full", is_guarded=True), StripCell("out", is_guarded=False)),
    next_game=GAME, out_now=OUT,
)  # fmt: skip
BLANK = RosterAthlete(
    athlete="A-2", name="Bo Ray", team="N-MIH", season="2026 winter", jersey=None, position=None,
    position_group=None, status=Status.NOT_RECORDED, reason=None, because=None, last_on=None,
    sessions_since=0,
    injury=OpenInjury("I-2", "hand", "right", date(2026, 9, 14), 6, 0),
    comparable=ComparableInjuries("hand", 2, 1, None, "fewer than 5 of them"),
    days_lost=15, expected_back_why="nothing to come back from is recorded", guards=(),
    taken_part=0, worn=0, worn_share=None, worn_share_why="no guard", needs=(),
    attention="not recorded", strip=(),
    next_game=NO_GAME,
)  # fmt: skip
STATES = {
    "rostered": 100, "full": 51, "limited_health": 8, "limited_other": 7, "limited_unknown": 6,
    "out_injury": 5, "out_illness": 4, "out_other": 3, "out_unknown": 2, "not_recorded": 14,
    "available": 61, "recorded": 78,
}  # fmt: skip
SESSION = SessionAvailability(
    session="N-P5", team="N-WSOC", season="2026 fall",
    starts_at=datetime(2026, 9, 17, 16, tzinfo=UTC), played_on=date(2026, 9, 17),
    setting="practice", season_part="regular", label="in the hall", share=0.78, why="", **STATES,
)  # fmt: skip
TOTALS = (
    AvailabilityTotal(setting="all", sessions=9, exposures=66, share=0.79, why="", **STATES),
    AvailabilityTotal(
        setting="game", sessions=1, exposures=0, share=None, why="nothing is recorded",
        **dict.fromkeys(STATES, 0),
    ),
)  # fmt: skip
SEVERITY = Severity(
    injuries=12,
    still_open=2,
    bins=(SeverityBin("1–7 days", 1, 7, 9, 0), SeverityBin("over 28 days", 29, None, 5, 2)),
    days=251,
    mean=20.9,
    median=Quantile(4, 3, None, share=0.6),
    share_over=Estimate(0.25, 0.1, 0.4, why="limits are wide"),
)
AVAILABILITY = Availability(
    sessions=(SESSION,), totals=TOTALS, roster_days=1400, unavailable_days=240, severity=SEVERITY,
    burden=Burden(230, 3300, 69.7, is_lower_bound=True),
    by_part=(
        PartRate(
            "regular",
            Rate(5.94, 3.57, 9.27, 0.9, injuries=19, exposures=3200),
            Rate(5.81, 3.44, 9.18, 0.8, injuries=18, exposures=3100),
        ),
    ),
)  # fmt: skip
HEADLINE = Headline(
    rostered=30, full=22, limited=1, out=4, not_recorded=3, out_for_health=2,
    limited_because={"ill": 1}, out_because={"injured": 2, "not selected": 2},
    guards={state: count for count, state in enumerate(GuardState, 31)},
    late=38,
    guards_in_hand=39,
    athletes_with_guard=40,
)  # fmt: skip
ANSWER = RosterAnswer(
    summary=Summary("?", "An answer.", (), (), Scope(date(2026, 9, 20))),
    next_game=GAME, next_games=(GAME, NO_GAME), athletes=(HURT, BLANK), headline=HEADLINE,
    late_after=(LateAfter("N", 16.5, 41, "same plan"),), availability=AVAILABILITY,
)  # fmt: skip
