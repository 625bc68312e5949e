"""A season in which return guards bring athletes back sooner; in the shipped one they do not."""

from dataclasses import replace

import numpy as np

from seasonboard.sample.draws import Draws, Ints
from seasonboard.sample.injuries import SITE_AREA, SITES, Injuries, first_site
from seasonboard.sample.schedule import DAY
from seasonboard.sample.turnaround import NEVER, Orders


def back_sooner(injuries: Injuries, returns: Orders, ratio: float, draws: Draws) -> Injuries:
    """Return the injuries with the return guards' planted effect on the days out.

    On each day out with the guard fitted, the chance to come back is `ratio` times that of injuries
    of the area (0 to 1 at most): nobody who comes back sooner was chosen by when that would be.

    Args:
        injuries: As they are without an effect.
        returns: The guards made for return.
        ratio: 1 or more; 1 changes nothing.
        draws: A stream of its own.
    """
    held = returns.keep(returns.fitted < NEVER)
    fitted = np.full((int(injuries.athlete.max(initial=0)) + 1) * len(SITES), NEVER, dtype=np.int64)
    np.minimum.at(
        fitted, held.athlete * len(SITES) + first_site(held.kind, held.side), held.fitted // DAY
    )
    since = fitted[injuries.athlete * len(SITES) + injuries.site] - injuries.day
    first = np.maximum(since, 1)  # the first day out with the guard
    back = injuries.lost + 1
    mixed, lost = draws.uniform(len(injuries)), injuries.lost.copy()
    area = SITE_AREA[injuries.site]
    for place in np.unique(area):
        own = (area == place) & (injuries.lost > 0)
        bare, helped = _still_out(back[own], 1.0), _still_out(back[own], ratio)
        now = np.flatnonzero(own & (back >= first))
        start, end = first[now] - 1, back[now]
        left = (bare[end] + mixed[now] * (bare[end - 1] - bare[end])) / bare[start]
        lost[now] = np.searchsorted(-helped, -left * helped[start], side="left") - 1
    return replace(injuries, lost=lost)


def _still_out(back: Ints, ratio: float) -> np.ndarray:
    """Return the share still out after each day, the chance of each day being `ratio` times."""
    returned = np.bincount(back)
    at_risk = np.cumsum(returned[::-1])[::-1]
    shares: np.ndarray = np.cumprod(1 - np.minimum(ratio * returned / at_risk, 1.0))
    return shares
