"""Control sites: were guarded athletes hurt less where no guard in scope can have done anything?"""

from dataclasses import dataclass, field

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import interval
from seasonboard.answers.fields import Field, Group, Kind, Table, of, why
from seasonboard.answers.row_fields import frame_rows, usual
from seasonboard.stats.negative_control import (
    ControlInjuries,
    ControlRatio,
    CorrectedRatio,
    control_ratio,
    corrected_ratio,
)
from seasonboard.stats.ratios import RateRatio

FAR, NEIGHBOURING = "far", "neighbouring"
CONTROL_SITES, NEIGHBOURING_SITES = "control sites", "neighbours"
"""What the two are called in the forest, and on their method cards."""


@dataclass(frozen=True, slots=True)
class ControlSites:
    """Harm at sites that no guard in scope covers.

    `far` is a control of the headline, which `corrected` is divided by it; `neighbouring` is a
    figure for safety and controls nothing. `rows` are the injuries behind both.
    """

    far: ControlRatio
    neighbouring: ControlRatio
    corrected: CorrectedRatio
    rows: pl.DataFrame = field(compare=False)


def control_sites(rows: pl.DataFrame, headline: RateRatio) -> ControlSites:
    """Return the ratios at far and at neighbouring sites from `compare/control_sites`."""
    far, beside = (_ratio(rows, one, headline.level) for one in (FAR, NEIGHBOURING))
    return ControlSites(far, beside, corrected_ratio(headline, far), rows)


def _ratio(rows: pl.DataFrame, nearness: str, level: float) -> ControlRatio:
    own = rows.filter(pl.col("nearness") == nearness).select(
        pl.struct("athlete", "session", "area").rank("dense").alias("injury"),
        *(pl.col(f"sites_{group}") * pl.col("injuries") for group in ("guarded", "unguarded")),
        *("exposures_guarded", "exposures_unguarded"),
    )
    return control_ratio(ControlInjuries(*own.to_dict(as_series=False).values()), level=level)


def far_reading(found: ControlSites) -> str:
    """Return what the ratio at control sites means; a quiet one is no approval."""
    far, corrected = found.far, found.corrected
    if far.value is None:
        return f"Nothing can be told yet: {far.why}."
    if far.is_quiet:
        return "This proves nothing: care can show at the guarded site alone."
    text = "Find out why before more guards go out."
    if far.value < 1:
        text = "No guard can do that: suspect care or recording, in the headline too."
    if corrected.value is None:
        return text
    limits = words.interval(corrected.low, corrected.high)
    return f"{text} Divided by it the headline is {words.ratio(corrected.value)} ({limits})."


def neighbouring_reading(found: ControlSites) -> str:
    """Return what the ratio beside the guard means: harm is told as loudly as benefit."""
    beside = found.neighbouring
    if beside.value is None:
        return f"Nothing can be told yet: {beside.why}."
    if beside.is_quiet:
        return "Harm there is neither shown nor ruled out."
    if beside.value > 1:
        return "The guard may move harm there: have its edges and fit looked at."
    return "It may be the guard, and it may be care."


def control_lines(found: ControlSites) -> list[str]:
    """Return what is found far from the guard and right beside it, a paragraph each."""
    return [
        f"Far from the guard{_hurt(found.far)}. {far_reading(found)}",
        f"Right beside the guard{_hurt(found.neighbouring)}. {neighbouring_reading(found)}",
    ]


def loud_words(found: ControlSites) -> str:
    """Return what belongs beside the verdict: whatever lies wholly on one side of 1, in words."""
    pairs = zip((found.far, found.neighbouring), control_lines(found), strict=True)
    return " ".join(line for one, line in pairs if one.value is not None and not one.is_quiet)


def _hurt(ratio: ControlRatio) -> str:
    if ratio.value is None:
        return " the guarded and the bare are compared too"
    limits = words.interval(ratio.low, ratio.high)
    return (
        f" athletes were hurt {words.ratio(ratio.value)} times as often guarded as bare ({limits})"
    )


def _ratio_fields(meaning: str, *more: Field) -> tuple[Field, ...]:
    value = Field("ratio", meaning, Kind.RATIO, of("value"))
    return (value, *interval(Kind.RATIO), *more, why(of("why")))


_INJURIES = Field("injuries", "injuries it rests on", Kind.COUNT)
_OVER = "hurt guarded over hurt bare"
CONTROL_FIELDS = Group(
    "control_sites",
    of("controls"),
    (
        Group("", of("far"), _ratio_fields(f"{_OVER}, far from every area covered", _INJURIES)),
        Group(
            "corrected",
            of("corrected"),
            _ratio_fields(
                "the headline divided by it", Field("p", "p of a ratio of 1", Kind.THOUSANDTHS)
            ),
            "the headline divided by the ratio at control sites",
        ),
        Group(
            "neighbouring",
            of("neighbouring"),
            _ratio_fields(_OVER, _INJURIES),
            "the same at sites that adjoin an area covered: about safety, no control",
        ),
    ),
    "harm at sites that no guard in scope covers; a quiet one proves nothing",
)
"""How the control sites are told in JSON."""

CONTROL_ROWS = Table.described(
    "control_rows",
    "an injury at a site that no guard in scope covers",
    Field("nearness", "far from every area covered, or neighbouring one", heading="nearness"),
    *usual("area", "athlete", "session"),
    Field("injuries", "sides hurt", Kind.COUNT, heading="sides"),
    Field("sites_guarded", "studied sites, guard worn", Kind.COUNT, heading="sites guarded"),
    Field("sites_unguarded", "studied sites, bare", Kind.COUNT, heading="sites bare"),
    Field("exposures_guarded", "guarded site-exposures", Kind.COUNT, heading="guarded"),
    Field("exposures_unguarded", "bare site-exposures", Kind.COUNT, heading="bare"),
    rows=lambda found: frame_rows(found.rows),
)
