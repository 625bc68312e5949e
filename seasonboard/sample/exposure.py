"""Who was to take part in which session, before injuries are known."""

from dataclasses import dataclass, replace

import numpy as np

from seasonboard.sample.clubs import ONLY_PRESENT_LISTED, Clubs
from seasonboard.sample.draws import Bools, Columns, Draws, Ints
from seasonboard.sample.people import People
from seasonboard.sample.schedule import DAY, Sessions, pairs_of
from seasonboard.sample.truth import GROUPS, SPORTS, truth

FULL, LIMITED, OUT = 0, 1, 2
PARTS = ("full", "limited", "out")
NO_REASON, INJURY, ILLNESS, SELECTION, PERSONAL, OTHER = -1, 0, 1, 2, 3, 4
REASONS = ("injury", "illness", "selection", "personal", "other")

# Of each sport: share of a squad that is not picked for a game, and a whole game's minutes.
_NOT_PICKED = np.array([0.30, 0.16, 0.18, 0.18, 0.2])
_MINUTES = np.array([90, 22, 60, 40, 0])
_SPORT = np.array([SPORTS.index(sport) for sport, _ in GROUPS])  # of each group
_IN_GOAL = np.array(["goal" in group for _, group in GROUPS])
_ICE_HOCKEY = SPORTS.index("ice hockey")


@dataclass(frozen=True, slots=True)
class Attendance(Columns):
    """One row for each athlete and session that is recorded."""

    session: Ints
    athlete: Ints
    group: Ints
    starts: Ints
    game: Bools
    squad: Ints
    part: Ints
    reason: Ints

    @property
    def took_part(self) -> Bools:
        """Full or limited."""
        return self.part < OUT

    @property
    def day(self) -> Ints:
        """Days since 1970."""
        return self.starts // DAY


def plan_attendance(sessions: Sessions, people: People, draws: Draws) -> Attendance:
    """Everyone on the roster that day, less what was never recorded; nobody is injured yet."""
    session, row = pairs_of(sessions, people.row_first, people.row_count)
    day = sessions.day[session]
    count = len(session)
    recorded = ~draws.chance(count, truth().attendance_row_missing_share)
    recorded &= ~sessions.unrecorded[session]
    recorded &= (day >= people.joined[row]) & (day <= people.left[row])
    athlete = people.row_athlete[row]
    plan = Attendance(
        session=session,
        athlete=athlete,
        group=people.row_group[row],
        starts=sessions.starts[session],
        game=sessions.game[session],
        squad=sessions.squad[session],
        part=np.zeros(count, dtype=np.int64),
        reason=np.full(count, NO_REASON, dtype=np.int64),
    )
    part, reason = _absences(plan, draws, athletes=len(people.keys))
    return replace(plan, part=part, reason=reason).keep(recorded)


def _absences(plan: Attendance, draws: Draws, *, athletes: int) -> tuple[Ints, Ints]:
    """Illness by the week, selection for games by standing in the squad, personal reasons."""
    count = len(plan.session)
    week = (plan.day + 3) // 7
    weeks = week - week.min(initial=2**40)
    ill = draws.uniform(athletes * (int(weeks.max(initial=0)) + 1))[athletes * weeks + plan.athlete]
    standing = draws.uniform(athletes)[plan.athlete]
    skipped = _NOT_PICKED[_SPORT[plan.group]]
    not_picked = plan.game & draws.chance(count, np.minimum(2.0 * skipped * (1 - standing), 0.95))
    other = draws.uniform(count)
    cases = [
        (ill < 0.010, OUT, ILLNESS),
        (ill < 0.014, LIMITED, ILLNESS),
        (other < 0.012, OUT, PERSONAL),
        (not_picked, OUT, SELECTION),
        (other < 0.017, OUT, OTHER),
        (other < 0.027, LIMITED, OTHER),
    ]
    when, parts, reasons = zip(*cases, strict=True)
    return np.select(when, parts, FULL), np.select(when, reasons, NO_REASON)


def apply_injuries(plan: Attendance, out: Bools, limited: Bools) -> Attendance:
    """The plan once injuries are known: `out` and `limited` say who was, through injury."""
    part = np.where(out, OUT, np.where(limited & plan.took_part, LIMITED, plan.part))
    reason = np.where(out | (limited & plan.took_part), INJURY, plan.reason)
    return replace(plan, part=part, reason=reason)


def listed(plan: Attendance, clubs: Clubs) -> Bools:
    """Rows that are written: one team lists only those who took part."""
    department, code = ONLY_PRESENT_LISTED
    sparse = np.array([name == code for name in clubs.codes])
    sparse &= clubs.pattern[clubs.team_department] == department
    unlisted: Bools = sparse[clubs.squad_team[plan.squad]] & ~plan.took_part
    return ~unlisted


def minutes_and_plays(plan: Attendance, draws: Draws) -> tuple[Ints, Ints]:
    """Minutes (games of timed sports) and plays (shifts on the ice); -1 where not kept."""
    count = len(plan.session)
    sport, in_goal = _SPORT[plan.group], _IN_GOAL[plan.group]
    whole = np.where(in_goal & (sport == _ICE_HOCKEY), 60, _MINUTES[sport])
    share = np.where(in_goal, 1.0, np.minimum(0.15 + 1.1 * draws.uniform(count), 1.0))
    share = np.where(plan.part == LIMITED, 0.5 * share, share)
    kept = plan.game & plan.took_part & (whole > 0)
    minutes = np.where(kept, np.maximum(1, np.floor(whole * share)).astype(np.int64), -1)
    skater = kept & (sport == _ICE_HOCKEY) & ~in_goal
    plays = np.where(skater, np.floor(minutes * 1.2).astype(np.int64) + 1, -1)
    return minutes, plays
