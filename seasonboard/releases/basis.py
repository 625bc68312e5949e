"""A plan from a release: its figures in the place of own records, and what follows from counts.

Nothing here reads a record, so that a plan tells no more than the release does.
"""

from collections.abc import Sequence

import polars as pl

from seasonboard.answers.pitch.answer import PlanBasis
from seasonboard.answers.pitch.baseline import (
    BESIDES_USUAL,
    GAME,
    IN_SESSIONS_USUAL,
    PRACTICE,
    Group,
    ServedRates,
)
from seasonboard.answers.pitch.inputs import (
    OWN,
    assumed_inputs,
    effect_between,
    with_std_error,
)
from seasonboard.answers.pitch.options import EffectLimits, PrintWay
from seasonboard.answers.pitch.parts import Effect, Input, ServedWork
from seasonboard.disclosure.count_table import THRESHOLD
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.releases.block import Block
from seasonboard.releases.injuries import (
    ARMS,
    BARE,
    BESIDES,
    DAYS_LOST,
    EXPOSURES,
    IN_SESSIONS,
    PEEK_PROOF,
    RATIO,
)
from seasonboard.releases.work import DECIDED, DEPARTMENTS, MAKING, ORDERS, READY
from seasonboard.stats.absence_duration import AbsenceLaw
from seasonboard.stats.proportions import Proportion, wilson
from seasonboard.stats.rates import PER, Rate, injury_rate

_RATIOS = {
    EffectLimits.ORDINARY: f"{RATIO}, same session",
    EffectLimits.PEEK_PROOF: PEEK_PROOF,
}


def plan_basis(block: Block, areas: Sequence[str], sites: int) -> PlanBasis:
    """Return what a plan rests on where it rests on a release.

    Args:
        block: The kind of guard that is planned with.
        areas: The body areas it covers.
        sites: The sites of an athlete in these areas.
    """
    return PlanBasis(
        _prospect(block),
        _rates(block, areas, sites),
        _figure(block, IN_SESSIONS) or IN_SESSIONS_USUAL,
        _parts(block),
        _making(block),
        _absence(block),
        tuple(_input(block, one) for one in assumed_inputs()),
        {limits: _effect(block, limits) for limits in EffectLimits},
        _served(block),
        (),
    )


def told_rate(block: Block, arm: str, cut: str = "") -> Rate | None:
    """Return the rate of injuries of an arm or a cut of it; None where a count is not told."""
    injuries, exposures = block.count(f"{arm}{cut}"), block.count(f"{EXPOSURES[arm]}{cut}")
    return injury_rate(injuries, exposures) if injuries is not None and exposures else None


def told_share(block: Block, part: str, whole: str) -> Proportion | None:
    """Return the share of one count in another; None where one of them is not told."""
    counts = block.count(part), block.count(whole)
    return wilson(counts[0], counts[1]) if counts[0] is not None and counts[1] else None


def _figure(block: Block, name: str) -> float | None:
    figure = block.figure(name)
    return None if figure is None else figure.value


def _values(block: Block, name: str) -> list[float]:
    """Return the parts of a distribution told in equal parts, rising."""
    cuts = (cut for cut in block.cuts(name) if "," not in cut)
    values = (_figure(block, f"{name}, {cut}") for cut in cuts)
    return sorted(value for value in values if value is not None)


def _making(block: Block) -> pl.DataFrame:
    """Return rows as of `pitch/making`: of each plan, or of all orders where that is not told."""
    rows = [
        (way.value, hours, 1)
        for way in PrintWay
        for hours in _values(block, f"{MAKING}, {way}") or _values(block, MAKING)
    ]
    columns = {"plan": pl.String, "hours": pl.Float64, "orders": pl.Int64}
    return pl.DataFrame(rows, schema=columns, orient="row")


def _served(block: Block) -> dict[PrintWay, ServedWork]:
    served = {}
    for way in PrintWay:
        cut = f", {way}"
        departments = _figure(block, f"{DEPARTMENTS}{cut}")
        if departments:
            median, p80 = (_figure(block, f"{time}{cut}") for time in ("median", "p80"))
            ready = told_share(block, f"{READY}{cut}", f"{DECIDED}{cut}")
            served[way] = ServedWork(
                round(departments),
                block.count(f"{ORDERS}{cut}"),
                median,
                p80,
                None if ready is None else ready.value,
            )
    return served


def _prospect(block: Block) -> Prospect:
    """Return a department like those served: one team of each sport and sex, of usual size."""
    teams = []
    for cut in block.cuts("team"):
        sport, _, sex = cut.rpartition(", ")
        sizes = [
            round(_figure(block, f"{of}, {cut}") or 0) for of in ("team", "games", "practices")
        ]
        teams.append(ProspectTeam(sport, sex, sizes[0], (), sizes[1], sizes[2]))
    return Prospect(tuple(teams))


def _rates(block: Block, areas: Sequence[str], sites: int) -> ServedRates:
    """Return how often bare sites are hurt, by the counts that are told.

    Sports whose injuries are not told have the rate of all such sports together.
    """
    besides, whole = _figure(block, BESIDES) or BESIDES_USUAL, told_rate(block, BARE)
    if whole is None or whole.value is None or whole.injuries < THRESHOLD or len(areas) != 1:
        return ServedRates({}, {}, 0.0, besides)
    each = whole.value / PER
    counts = {
        cut: (block.count(f"{BARE}, {cut}"), exposures * each)
        for cut in block.cuts(EXPOSURES[BARE])
        if (exposures := block.count(f"{EXPOSURES[BARE]}, {cut}"))
    }
    told = {cut: one for cut, one in counts.items() if one[0] is not None}
    rest = whole.injuries - sum(count or 0 for count, _ in told.values())
    expected = sum(mean for cut, (_, mean) in counts.items() if cut not in told)
    groups = {}
    for cut, (count, mean) in counts.items():
        sport, _, sex = cut.rpartition(", ")
        own = rest * mean / expected if count is None else count
        groups[sport.casefold(), sex] = Group(own, mean)
    rate = each * sites * besides
    rates = {GAME: rate, PRACTICE: rate}
    return ServedRates(rates, groups, whole.injuries, besides, block.departments)


def _parts(block: Block) -> pl.DataFrame:
    rows = []
    for cut in block.cuts("taking part"):
        sport, _, setting = cut.rpartition(", ")
        share = _figure(block, f"taking part, {cut}") or 0.0
        rows.append((sport, setting, 100, round(100 * share)))
    columns = {"sport": pl.String, "setting": pl.String, "places": pl.Int64, "took_part": pl.Int64}
    return pl.DataFrame(rows, schema=columns, orient="row")


def _absence(block: Block) -> AbsenceLaw | None:
    days = tuple(round(value) for value in _values(block, DAYS_LOST))
    if not days:
        return None
    return AbsenceLaw(days, (1 / len(days),) * len(days), 2 * THRESHOLD * len(days), 0, 0.0)


def _input(block: Block, assumed: Input) -> Input:
    figure = block.figure(assumed.name)
    if figure is None or figure.value is None:
        return assumed
    source = f"{OWN}: release {block.made_in} of {block.made_on}"
    return Input(assumed.name, figure.value, figure.low, figure.high, assumed.unit, source)


def _effect(block: Block, limits: EffectLimits) -> Effect:
    counts = [block.count(arm) for arm in ARMS]
    figure = block.figure(_RATIOS[limits])
    if figure is None:
        why = "too few injuries to release a ratio"
        return effect_between(limits, counts, (None,) * 4, why)
    ratio = with_std_error(figure.value, figure.low, figure.high)
    return effect_between(limits, counts, ratio)
