"""Are guarded athletes hurt less? Rates, and comparisons from crude to same session."""

from dataclasses import dataclass

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.base import (
    CAUTION,
    Said,
    left_out_rows,
    pooling_caveat,
    studied_areas,
)
from seasonboard.answers.reader import Reader, read_together
from seasonboard.answers.verdict import NOTHING, verdict
from seasonboard.scope import Known, Scope, View
from seasonboard.stats.rates import Rate, injury_rate
from seasonboard.stats.ratios import RateRatio, Strata, mantel_haenszel

QUESTION = "Are guarded athletes hurt less?"
HEADLINE = "same session"
CRUDE = "crude"
ORDER = (HEADLINE, "alike athletes", CRUDE)

REMOVES = {
    HEADLINE: "everything that teammates of one position group share in one session",
    "alike athletes": "the mix of sports, positions, games and practices, and the season's course",
    CRUDE: "nothing: shown so that the effect of adjusting is seen",
}


@dataclass(frozen=True, slots=True)
class Stratum:
    """One stratum of a comparison that holds an injury."""

    label: str
    injuries_guarded: int
    injuries_unguarded: int
    exposures_guarded: int
    exposures_unguarded: int

    @property
    def informs(self) -> bool:
        """Say whether both groups were exposed in it."""
        return self.exposures_guarded > 0 and self.exposures_unguarded > 0


@dataclass(frozen=True, slots=True)
class Comparison:
    """One way of comparing, its ratio, and the strata with injuries behind it."""

    name: str
    removes: str
    ratio: RateRatio
    strata: tuple[Stratum, ...]


@dataclass(frozen=True, slots=True)
class CompareAnswer:
    """The answer of the Compare screen."""

    said: Said
    guarded: Rate
    unguarded: Rate
    comparisons: tuple[Comparison, ...]
    verdict: str

    def comparison(self, name: str) -> Comparison:
        """Return one comparison by its name."""
        return next(c for c in self.comparisons if c.name == name)


def compare(reader: Reader, scope: Scope, known: Known) -> CompareAnswer:
    """Compare how often guarded and unguarded sites were injured, within the scope.

    Raises:
        StoreError: The store could not be read.
    """
    params = scope.params()
    frame, left_out = read_together(
        reader, ("compare/strata", params), ("compare/left_out", params)
    )
    comparisons = tuple(_comparison(name, frame, scope.level) for name in ORDER)
    crude = comparisons[-1].ratio
    headline = comparisons[0].ratio
    others = {c.name: c.ratio for c in comparisons[1:-1]}
    judged = verdict(headline, others)
    said = Said(
        question=QUESTION,
        answer=_sentence(judged, headline, crude, words.sites_word(studied_areas(scope, known))),
        caveats=tuple(_caveats(headline, crude, scope, known)),
        left_out=left_out_rows(left_out),
        scope=scope,
    )
    return CompareAnswer(
        said,
        injury_rate(crude.injuries_guarded, crude.exposures_guarded, level=scope.level),
        injury_rate(crude.injuries_unguarded, crude.exposures_unguarded, level=scope.level),
        comparisons,
        judged,
    )


def _comparison(name: str, frame: pl.DataFrame, level: float) -> Comparison:
    rows = frame.filter(pl.col("comparison") == name)
    columns = [
        rows[column].to_list()
        for column in (
            "injuries_guarded",
            "injuries_unguarded",
            "exposures_guarded",
            "exposures_unguarded",
            "strata",
        )
    ]
    injured = rows.filter(pl.col("stratum").is_not_null()).drop("comparison", "strata")
    strata = tuple(Stratum(*row) for row in injured.iter_rows())
    ratio = mantel_haenszel(Strata(*columns), level=level)
    return Comparison(name, REMOVES[name], ratio, strata)


def _sentence(judged: str, headline: RateRatio, crude: RateRatio, sites: str) -> str:
    if judged == NOTHING:
        return _nothing(crude, sites)
    hurt = f"{crude.injuries_guarded} guarded, {crude.injuries_unguarded} bare"
    opening = judged[0].upper() + judged[1:]
    if headline.rate_ratio is None:
        return (
            f"{opening}: {hurt}, and no ratio can be told from the sessions in which "
            f"both guarded and bare {sites} were exposed ({headline.why})."
        )
    text = (
        f"{opening}: {hurt}. In the same sessions guarded {sites} were hurt "
        f"{words.ratio(headline.rate_ratio)} times as often as bare ones "
        f"({words.number(headline.level * 100, digits=0)} %: "
        f"{words.limits(headline.low, headline.high)})."
    )
    if _point_apart(headline, crude):
        text += (
            f" The crude ratio, {words.ratio(crude.rate_ratio)}, points the other way: it mixes "
            "different sessions and should not be quoted."
        )
    return text


def _nothing(crude: RateRatio, sites: str) -> str:
    if not crude.exposures_guarded and not crude.exposures_unguarded:
        return "Nothing to compare yet: nobody is recorded as taking part in a session."
    if not crude.exposures_guarded:
        return (
            f"Nothing to compare yet: no guard counted here was worn in a recorded session; "
            f"{words.plural(crude.injuries_unguarded, 'injury', 'injuries')} in "
            f"{words.whole(crude.exposures_unguarded)} exposures of bare {sites}."
        )
    return (
        f"Nothing to compare with: every recorded exposure of {sites} was guarded "
        f"({words.plural(crude.injuries_guarded, 'injury', 'injuries')} in "
        f"{words.whole(crude.exposures_guarded)})."
    )


def _point_apart(headline: RateRatio, crude: RateRatio) -> bool:
    if headline.rate_ratio is None or crude.rate_ratio is None:
        return False
    return (headline.rate_ratio - 1) * (crude.rate_ratio - 1) < 0


def _caveats(headline: RateRatio, crude: RateRatio, scope: Scope, known: Known) -> list[str]:
    caveats = [CAUTION]
    if scope.purpose is View.ALL:
        caveats.append("Puts preventive and return guards together: never the headline.")
    caveats += pooling_caveat(scope, known)
    if headline.informative_injuries and crude.injuries_guarded + crude.injuries_unguarded:
        caveats.append(
            f"The same-session ratio rests on {headline.informative_injuries} of "
            f"{crude.injuries_guarded + crude.injuries_unguarded} injuries: those in sessions "
            "where both guarded and bare sites of one position group were exposed."
        )
    caveats.append(
        "The interval takes injuries as independent; athletes who are hurt again and again make "
        "it a little too narrow."
    )
    return caveats
