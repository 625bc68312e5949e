"""What would undo the headline: described, and never a reason to claim it or not to."""

from dataclasses import dataclass

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import SAME_SESSION
from seasonboard.answers.compare.recording_checks import Recording
from seasonboard.stats.e_value import EValue, e_value
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.misclassification import OwnersBare, bias_analysis
from seasonboard.stats.ratios import RateRatio, Strata
from seasonboard.stats.tipping_points import (
    NO_NUMBER,
    WearFlips,
    attendance_share,
    is_less,
    is_shown,
    mirrored,
    wear_flips,
)

GATES_NOTHING = (
    "These figures describe, and decide nothing: a claim made false by lost rows had an E-value "
    "of 1.9, and often outlived such a bias analysis."
)
_COUNTS = ("injuries_guarded", "injuries_unguarded", "exposures_guarded", "exposures_unguarded")


@dataclass(frozen=True, slots=True)
class Undo:
    """What would undo the headline.

    `unrecorded` are those of the candidates of `flips` for whom nobody recorded whether a guard was
    on. `attendance_share` is the share of `lost` site-exposures, bare or guarded, that would have
    to be missing; None where nothing is shown or no share would. `all_flipped` and `bias` are the
    ratio with every candidate recorded otherwise, and as it may be if wear was not always recorded;
    `recording` holds the ratio as it would be were attendance of both groups recorded alike.
    """

    headline: Estimate
    e_value: EValue
    flips: WearFlips
    unrecorded: int
    attendance_share: float | None
    all_flipped: Estimate
    bias: Estimate
    recording: Recording

    @property
    def lost(self) -> str:
        """Return whose site-exposures would have to be missing."""
        return "bare" if self.is_of_bare else "guarded"

    @property
    def is_of_bare(self) -> bool:
        """Say whether records of bare sites would undo it: not so where it lies over 1."""
        return not is_shown(self.headline) or is_less(self.headline)

    @property
    def why(self) -> str:
        """Return why there is no E-value, or no share of attendance."""
        is_lacking = self.attendance_share is None
        no_share = (self.flips.why or NO_NUMBER) if is_lacking else ""
        return "; ".join(filter(None, (self.e_value.why, no_share)))

    @property
    def sentences(self) -> tuple[str, ...]:
        """Return what would undo the headline, in words."""
        return (
            *_e_value_sentences(self.e_value),
            *_flip_sentences(self),
            *_share_sentences(self),
            *_attendance_sentences(self.recording),
            *_bias_sentences(self.bias),
            GATES_NOTHING,
        )


def what_would_undo(
    strata: pl.DataFrame, owners: pl.DataFrame, headline: RateRatio, records: Recording
) -> Undo:
    """Return what would undo the headline, from rows of `compare/strata` and `compare/owners`.

    Under 1, injuries of owners who were bare are candidates to have been guarded; over 1, guarded
    ones to have been bare.
    """
    rows = (
        strata.filter((pl.col("comparison") == SAME_SESSION) & pl.col("stratum").is_not_null())
        .join(owners.rename({"injuries": "candidates"}), on="stratum", how="left")
        .with_columns(pl.col("candidates", "unrecorded", "exposures").fill_null(0))
        .sort("stratum")
    )
    held = Strata(*(rows[name].to_list() for name in _COUNTS))
    of_owners = OwnersBare(rows["candidates"].to_list(), rows["exposures"].to_list())
    is_of_bare = not is_shown(headline) or is_less(headline)
    turned, level = held if is_of_bare else mirrored(held), headline.level
    candidates = of_owners.injuries if is_of_bare else turned.injuries_unguarded
    flips = wear_flips(turned, candidates, level=level)
    return Undo(
        headline,
        e_value(headline),
        flips,
        int(rows["unrecorded"].sum()) if is_of_bare else 0,
        attendance_share(turned, level=level),
        flips.all_flipped if is_of_bare else _turned_back(flips.all_flipped),
        bias_analysis(held, of_owners, level=level),
        records,
    )


def _turned_back(ratio: RateRatio) -> Estimate:
    """Return a ratio of bare over guarded as one of guarded over bare."""
    value, high, low = (1 / end if end else None for end in (ratio.value, ratio.low, ratio.high))
    if ratio.value is None and ratio.low is not None:
        value, low = 0.0, 0.0
    return Estimate(value, low, high, ratio.level, ratio.method, ratio.why or "no limit")


def _e_value_sentences(found: EValue) -> tuple[str, ...]:
    if found.value is None and found.of_limit is None:
        return (f"There is no E-value: {found.why}.",)
    lines = []
    if found.value is not None:
        lines.append(
            "Something unmeasured would have to go with guards and with injuries by a ratio of "
            f"{words.ratio(found.value)} each to explain this away (E-value)."
        )
    if found.of_limit == 1:
        lines.append("For the limit it is 1: chance alone may explain it.")
    elif found.of_limit is not None:
        lines.append(f"For the limit nearer 1, {words.ratio(found.of_limit)} each would do.")
    return tuple(lines)


def _flip_sentences(undo: Undo) -> tuple[str, ...]:
    flips = undo.flips
    if not is_shown(undo.headline):
        return ("No difference is shown, so no record would undo one.",)
    kind, of, was = (
        ("bare", " of guard owners", "on") if undo.is_of_bare else ("guarded", "", "off")
    )
    many = words.plural(flips.candidates, f"{kind} injury", f"{kind} injuries") + of
    if flips.needed is None:
        return (f"Had the guard been {was} at all {many}, this would not be undone.",)
    needed = words.whole(flips.needed)
    lines = [f"{needed} of {many}, had the guard been {was}, would undo this."]
    if undo.is_of_bare:
        lines.append(
            f"For {words.whole(undo.unrecorded)} of the {words.whole(flips.candidates)} nobody "
            "recorded whether it was on."
        )
    return tuple(lines)


def _share_sentences(undo: Undo) -> tuple[str, ...]:
    lines = []
    if undo.attendance_share is not None:
        share = words.percent(undo.attendance_share, digits=1)
        lines.append(
            f"So would {share} of {undo.lost} attendance that nobody recorded, in every session."
        )
    ratio = undo.all_flipped
    if undo.flips.candidates and ratio.value is not None:
        every = "on at every bare injury of guard owners"
        lines.append(
            f"Had it been {every if undo.is_of_bare else 'off at every guarded injury'}, the ratio "
            f"would be {words.ratio(ratio.value)} ({words.interval(ratio.low, ratio.high)})."
        )
    return tuple(lines)


def _attendance_sentences(records: Recording) -> tuple[str, ...]:
    differs = records.as_it_differs
    if differs is None:
        return (
            f"With attendance recorded alike the ratio is not known: {records.as_it_differs_why}.",
        )
    alike = "With attendance of all recorded alike the ratio would be"
    return (f"{alike} {words.ratio(differs)}.",)


def _bias_sentences(bias: Estimate) -> tuple[str, ...]:
    if bias.value is None:
        return (f"If worn guards were not always recorded: not known, {bias.why}.",)
    return (
        "If only some 80 % of worn guards were recorded, the ratio would be about "
        f"{words.ratio(bias.value)} ({words.interval(bias.low, bias.high)}).",
    )
