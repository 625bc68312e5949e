"""Spells of follow-up, (entry, exit, injured), turned into the counts that the statistics take."""

from collections import Counter
from collections.abc import Iterable, Sequence

from seasonboard.stats.log_rank import TwoGroupTick
from seasonboard.stats.survival import Curve, CurvePoint, TickCount
from tests.front_door import reference_rows

Spell = tuple[int, int, bool]
"""At risk at the ticks entry < k <= exit; injured at the last of them, or not."""


def counts(spells: Iterable[Spell]) -> list[TickCount]:
    """Count who was at risk at each tick, leaving out ticks at which nobody was."""
    at_risk, injuries, entered, left = Counter(), Counter(), Counter(), Counter()
    for entry, stop, injured in spells:
        at_risk.update(range(entry + 1, stop + 1))
        entered[entry + 1] += 1
        (injuries if injured else left)[stop] += 1
    return [
        TickCount(tick, at_risk[tick], injuries[tick], entered[tick], left[tick])
        for tick in sorted(at_risk)
    ]


def two_groups(
    guarded: Iterable[Spell], unguarded: Iterable[Spell], stratum: str = "all"
) -> list[TwoGroupTick]:
    """Put the counts of two groups side by side, tick by tick."""
    first = {c.tick: c for c in counts(guarded)}
    second = {c.tick: c for c in counts(unguarded)}
    nobody = TickCount(0, 0, 0, 0, 0)
    pairs = [(k, first.get(k, nobody), second.get(k, nobody)) for k in sorted({*first, *second})]
    return [
        TwoGroupTick(stratum, k, one.at_risk, one.injuries, other.at_risk, other.injuries)
        for k, one, other in pairs
    ]


def at(curve: Curve, tick: int) -> CurvePoint:
    """Return the last point of a curve at or before a tick."""
    return [point for point in curve.points if point.tick <= tick][-1]


def survivals(curve: Curve) -> list[tuple[int, float | None]]:
    """Return the ticks with injuries and the survival after each."""
    return [(point.tick, point.survival) for point in curve.points if point.injuries]


def freireich(arm: str) -> list[Spell]:
    """Weeks of remission of one arm (`6-MP` or `control`): Freireich et al. 1963."""
    rows = reference_rows("freireich_6mp.csv")
    return [(0, int(r["weeks"]), r["relapse"] == "1") for r in rows if r["arm"] == arm]


def leukaemia(arm: str) -> list[Spell]:
    """Weeks to relapse (`Maintained` or `Nonmaintained`): Miller 1981, p 49."""
    rows = reference_rows("aml_maintenance.csv")
    return [(0, int(r["weeks"]), r["relapse"] == "1") for r in rows if r["arm"] == arm]


def small_late_entry(*groups: str) -> list[Spell]:
    """Ten spells with late entry: Therneau & Grambsch 2000, appendix E.2."""
    rows = reference_rows("left_truncated_small.csv")
    return [(int(r["start"]), int(r["stop"]), r["event"] == "1") for r in rows if r["x"] in groups]


def residents(sex: str) -> list[Spell]:
    """Months of age under observation: Channing House, Hyde 1977, spells of a month or more."""
    return [(entry, stop, died) for _, entry, stop, died in _channing(sex) if entry < stop]


def residents_without_a_month(*sexes: str) -> Sequence[tuple[str, int, int, bool]]:
    """Return the records that leave at the age at which they enter."""
    return [row for sex in sexes for row in _channing(sex) if row[1] >= row[2]]


def _channing(sex: str) -> list[tuple[str, int, int, bool]]:
    return [
        (r["id"], int(r["entry_age_months"]), int(r["exit_age_months"]), r["died"] == "1")
        for r in reference_rows("channing_house.csv")
        if r["sex"] == sex
    ]
