"""From spells (entry, exit] to one count per tick."""

from collections.abc import Sequence

import numpy as np

from seasonboard.stats.survival import TickCount


def spell_counts(
    entry: Sequence[int], leaving: Sequence[int], injured: Sequence[bool]
) -> list[TickCount]:
    """Count who is at risk at each tick.

    A spell is at risk at ticks entry + 1 to leaving, and injured, if at all, at its last. Who
    leaves uninjured at a tick was at risk at it.

    Args:
        entry: Ticks played before the spell, 0 or more, one per spell.
        leaving: Its last tick.
        injured: Whether it ended with an injury.

    Returns:
        A count for every tick with someone at risk.

    Raises:
        ValueError: A spell holds no tick (it ends where it starts), or the columns differ in
            length; the message names the first such positions.
    """
    begin, end = np.asarray(entry, dtype=np.int64), np.asarray(leaving, dtype=np.int64)
    hurt = np.asarray(injured, dtype=bool)
    if not len(begin) == len(end) == len(hurt):
        raise ValueError("entry, leaving and injured differ in length")
    empty = np.flatnonzero((end <= begin) | (begin < 0))
    if len(empty):
        named = ", ".join(str(position) for position in empty[:10])
        raise ValueError(f"no tick lies between entry and exit of {len(empty)} spells: {named}")
    if not len(begin):
        return []
    size = int(end.max()) + 2
    came = np.bincount(begin + 1, minlength=size)
    went = np.bincount(end, minlength=size)
    injuries = np.bincount(end[hurt], minlength=size)
    at_risk = np.cumsum(came) - np.concatenate(([0], np.cumsum(went)[:-1]))
    return [
        TickCount(
            int(k), int(at_risk[k]), int(injuries[k]), int(came[k]), int(went[k] - injuries[k])
        )
        for k in np.flatnonzero(at_risk)
    ]
