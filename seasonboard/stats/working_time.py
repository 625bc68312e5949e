"""Working days between two days."""

from collections.abc import Sequence
from datetime import date

import numpy as np
import numpy.typing as npt

Days = npt.NDArray[np.datetime64]


def working_days(
    first: Sequence[date] | Days, last: Sequence[date] | Days, *, holidays: Sequence[date] = ()
) -> npt.NDArray[np.int64]:
    """Count working days after each first day, up to and including each last day.

    The first day is day 0, as in calendar days: asked on a Friday and fitted on the Monday after
    is 1 working day; asked on a Saturday and fitted on the Sunday is 0.

    `holidays` are not worked beside Saturdays and Sundays.

    Raises:
        ValueError: A last day lies before its first, or the columns differ in length.
    """
    begin, end = np.asarray(first, dtype="datetime64[D]"), np.asarray(last, dtype="datetime64[D]")
    if begin.shape != end.shape:
        raise ValueError("first and last days differ in number")
    if backwards := np.flatnonzero(end < begin).tolist():
        named = ", ".join(str(position) for position in backwards[:10])
        raise ValueError(f"the last day lies before the first at {named}")
    off = np.asarray(list(holidays), dtype="datetime64[D]")
    return np.asarray(np.busday_count(begin + 1, end + 1, holidays=off), dtype=np.int64)
