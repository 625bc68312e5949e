"""What of a department calls for attention, by fixed rules, in sentences."""

from collections.abc import Sequence
from dataclasses import dataclass

from seasonboard.answers import words
from seasonboard.answers.departments.parts import AVAILABILITY_DAYS, FELL, DepartmentRow
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import Proportion


@dataclass(frozen=True, slots=True)
class PooledFigures:
    """The figures of all departments of the scope together, to hold each against."""

    turnaround: Estimate
    ready: Proportion
    remakes: Proportion
    worn: ClusteredShare


def attention(row: DepartmentRow, pooled: PooledFigures) -> tuple[str, ...]:
    """Return what calls for attention, the most pressing first.

    A department stands out when its whole interval lies beyond the figure of all departments of
    the scope together; so chance alone seldom makes it stand out.
    """
    overdue = words.plural(row.overdue, "decision")
    sentences = (
        _late(row),
        f"{overdue} overdue." if row.overdue else "",
        _queue(row),
        _slow(row.turnaround, pooled.turnaround),
        _apart("Fewer ready for the next game", "orders", row.ready, pooled.ready, is_below=True),
        _apart("More remakes", "fitted guards", row.remakes, pooled.remakes),
        _apart("Worn less", "sessions", row.worn, pooled.worn, is_below=True),
        _fallen(row),
    )
    return tuple(filter(None, sentences))


def by_need(rows: Sequence[DepartmentRow]) -> tuple[DepartmentRow, ...]:
    """Return departments in order: most reasons first, then most late, most open, then by name."""
    return tuple(
        sorted(
            rows, key=lambda r: (-len(r.attention), -(r.late or 0), -r.open, r.name, r.department)
        )
    )


def _late(row: DepartmentRow) -> str:
    of_open = f"of {words.whole(row.open)} open"
    if row.late is None:
        oldest = words.plural(row.oldest_days or 0, "day")
        return f"Which {of_open} are late cannot be told; the oldest is {oldest} old."
    return f"{words.plural(row.late, 'order')} late, {of_open}." if row.late else ""


def _queue(row: DepartmentRow) -> str:
    allowed = row.allotment.prints_per_week
    if not allowed or row.allotment.queue <= allowed:
        return ""
    return (
        f"{words.plural(row.allotment.queue, 'order')} waiting to be printed, more than the "
        f"{words.whole(allowed)} of a week."
    )


def _slow(own: Estimate, pooled: Estimate) -> str:
    if own.low is None or own.value is None or pooled.value is None or own.low <= pooled.value:
        return ""
    return (
        f"Slower: half its orders take up to {words.number(own.value, digits=0)} days (at least "
        f"{words.number(own.low, digits=0)}), all together {words.number(pooled.value, digits=0)}."
    )


def _apart(
    what: str, unit: str, own: Proportion, pooled: Proportion, *, is_below: bool = False
) -> str:
    limit = own.high if is_below else own.low
    if own.value is None or limit is None or pooled.value is None:
        return ""
    if limit >= pooled.value if is_below else limit <= pooled.value:
        return ""
    return (
        f"{what}: {words.percent(own.value)} of {words.whole(own.trials)} {unit} (at "
        f"{'most' if is_below else 'least'} {words.percent(limit)}), all together "
        f"{words.percent(pooled.value)}."
    )


def _fallen(row: DepartmentRow) -> str:
    now, before = row.available.share, row.available_before.share
    if now is None or before is None or before - now < FELL:
        return ""
    return (
        f"Availability fell: {words.percent(now)} in the last {AVAILABILITY_DAYS} days, "
        f"{words.percent(before)} in the {AVAILABILITY_DAYS} before."
    )
