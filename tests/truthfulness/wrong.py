"""Wrong versions, kept to show what is wrong with them. None of this is in the product.

Each differs from a right one in one step. Their intervals are Greenland and Robins' as well.
"""

import math

import numpy as np

from seasonboard.stats.special import two_sided
from tests.truthfulness.counting import Counts, course_rows, session_strata
from tests.truthfulness.intervals import Found, all_looks, course_sums, estimate, shown, sums
from tests.truthfulness.seasons import BLOCKS, SESSIONS, WEEK, Seasons

NAIVE = "ever / never, all injuries"
NAIVE_FIRST = "ever / never, first injuries"
NO_BLOCKS = "alike athletes, no calendar blocks"
STOPPED = "same athlete, stopped at the first injury"
RAW = "same athlete, raw exposures"
BEFORE_ASKING = "same athlete, time before asking counted"
PROMPTED = "same athlete, prompted guards kept, whole season"
WEEKLY = "same session, ordinary interval, any weekly look"

WHY = {
    NAIVE: "Counts the time before a guard as guarded, and compares those who take up guards with "
    "those who do not.",
    NAIVE_FIRST: "The same, followed to the first injury: a site must stay uninjured to be counted "
    "as ever guarded, so that its waiting time cannot hold an injury (immortal time).",
    NO_BLOCKS: "Injuries are denser early in the season, guards come later.",
    STOPPED: "A bare injury before the guard is worn ends follow-up, so that only guarded injuries "
    "find both kinds of exposure.",
    RAW: "An athlete's bare exposures are the earlier ones, when everyone is hurt more often. "
    "Where injuries keep athletes out this is hidden, since that errs the other way; "
    "it shows where nobody is out.",
    BEFORE_ASKING: "Sites injured before asking are left out, so the bare time before asking "
    "cannot hold an injury but is counted as exposed.",
    PROMPTED: "An injury that brings on a guard is bare by construction. Without such guards "
    "nothing is wrong with it.",
    WEEKLY: "Sixteen looks give chance sixteen turns.",
}


def of_season(seasons: Seasons, counts: Counts, c: int, weights: np.ndarray) -> dict[str, Found]:
    """Return the wrong intervals of season `c` by name."""
    kinds = counts.alike[c].reshape(-1, BLOCKS, 4).sum(axis=1)
    return {
        NAIVE: _single(naive_rows(seasons, c, to_first=False)),
        NAIVE_FIRST: _single(naive_rows(seasons, c, to_first=True)),
        NO_BLOCKS: quick(kinds),
        **_athletes(seasons, c, weights),
        WEEKLY: _weekly(counts, c),
    }


def quick(rows: np.ndarray) -> Found:
    """Return the displayed interval without the rest of the product's answer: much faster.

    Where there is no log, the product's own function speaks.
    """
    above, under, spread = sums(rows)
    telling = (rows[:, 0] + rows[:, 1] > 0) & (rows[:, 2] > 0) & (rows[:, 3] > 0)
    if above == 0 or under == 0 or telling.sum() < 2:
        return shown(estimate(rows), rows)
    ratio = above / under
    reach = math.exp(two_sided(0.95) * math.sqrt(spread / (above * under)))
    return Found(ratio, ratio / reach, ratio * reach, above, under)


def naive_rows(seasons: Seasons, c: int, *, to_first: bool) -> np.ndarray:
    """Return injuries and exposures of sites ever guarded and never guarded, as one stratum."""
    session = np.arange(SESSIONS)[:, None]
    hurt = seasons.injuries
    own = (hurt.season == c) & (hurt.first if to_first else True)
    row = np.zeros((1, 4))
    for site in (0, 1):
        last = seasons.first_injury[c, :, site] if to_first else SESSIONS
        seen = seasons.part[:, c] & (session <= last)
        ever = (seasons.worn[:, c] & seen).any(axis=0) & seasons.covers[c, :, site]
        injured = ever[hurt.athlete[own & (hurt.site == site)]]
        exposed = seen.sum(axis=0)
        row += [injured.sum(), (~injured).sum(), exposed[ever].sum(), exposed[~ever].sum()]
    return row


def _single(row: np.ndarray) -> Found:
    return shown(estimate(row), row)


def _athletes(seasons: Seasons, c: int, weights: np.ndarray) -> dict[str, Found]:
    athlete, site = course_rows(seasons, c)
    asked = seasons.asked[c, athlete]
    first = seasons.first_injury[c, athlete, site]
    session = np.arange(SESSIONS)
    after, whole = session >= asked[:, None], np.ones((len(athlete), SESSIONS), dtype=bool)
    until_hurt = after & (session <= first[:, None])
    kept = first >= asked

    def version(who: np.ndarray, followed: np.ndarray, weigh: np.ndarray | None = weights) -> Found:
        rows = course_sums(seasons, c, (athlete[who], site[who]), followed[who], weigh)
        return quick(rows[rows[:, 0] + rows[:, 1] > 0])

    everyone = np.ones(len(athlete), dtype=bool)
    return {
        STOPPED: version(kept, until_hurt),
        RAW: version(kept, after, None),
        BEFORE_ASKING: version(kept, whole),
        PROMPTED: version(everyone, whole),
    }


def _weekly(counts: Counts, c: int) -> Found:
    session, _, rows = session_strata(counts, c)
    week = WEEK[session]
    return all_looks([quick(rows[:-1][week <= w]) for w in np.unique(week)])
