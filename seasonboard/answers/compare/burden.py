"""What injuries cost the guarded and the bare: days lost, severity, how they came about."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

import polars as pl

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import CRUDE
from seasonboard.stats.clustered_burden import AthleteDays, group_burdens
from seasonboard.stats.days_lost import Severity, severity
from seasonboard.stats.estimate import Estimate

NOT_RECORDED = "not recorded"
_FEWEST_OF_ONE = 3
"""Injuries of one athlete, at least half of a group's, from which a caveat says so."""


@dataclass(frozen=True, slots=True)
class GroupBurden:
    """What injuries cost one group.

    `burden` are days lost per 1000 of `exposures`; `most_of_one` the injuries of the athlete who
    has most of them; `set_aside` counts injuries that are not in the comparison, by reason.
    """

    name: str
    burden: Estimate
    severity: Severity
    exposures: int
    onsets: Mapping[str, int]
    mechanisms: Mapping[str, int]
    most_of_one: int
    set_aside: Mapping[str, int]

    @property
    def is_lower_bound(self) -> bool:
        """Say whether some injuries are open, so that more days will be lost."""
        return self.severity.still_open > 0


@dataclass(frozen=True, slots=True)
class Burdens:
    """The burden of the guarded and of the bare, and the one over the other.

    `unplaced` counts injuries set aside of which nobody knows whether a guard was on, by reason.
    """

    groups: tuple[GroupBurden, GroupBurden]
    ratio: Estimate
    unplaced: Mapping[str, int]

    @property
    def caveats(self) -> list[str]:
        """Return who has most of a group's injuries, where that is one athlete."""
        lines = []
        for group in self.groups:
            injuries, most = group.severity.injuries, group.most_of_one
            if most >= _FEWEST_OF_ONE and 2 * most >= injuries:
                lines.append(f"One athlete has {most} of {injuries} {group.name} injuries.")
        if any(group.is_lower_bound for group in self.groups):
            lines.append("Some injuries are open: their days so far are a lower bound.")
        return lines


def burdens(injuries: pl.DataFrame, athletes: pl.DataFrame, level: float) -> Burdens:
    """Return what injuries cost, from rows of `compare/burden` and `compare/athlete_strata`."""
    counted = injuries.filter(pl.col("why").is_null())
    own = athletes.filter(pl.col("comparison") == CRUDE)
    is_guarded = pl.col("is_guarded")
    days = counted.group_by("athlete_no").agg(
        days_guarded=pl.col("days_lost").filter(is_guarded).sum(),
        days_unguarded=pl.col("days_lost").filter(~is_guarded).sum(),
    )
    rows = own.join(days, on="athlete_no", how="left").sort("athlete_no").fill_null(0)
    names = ("days_guarded", "days_unguarded", "exposures_guarded", "exposures_unguarded")
    found = group_burdens(AthleteDays(*(rows[name].to_list() for name in names)), level=level)
    aside = injuries.filter(pl.col("why").is_not_null())
    sides = (("guarded", True, found.guarded), ("bare", False, found.unguarded))
    guarded, bare = (
        _group(
            *(name, burden, level),
            counted.filter(is_guarded == side),
            aside.filter(is_guarded == side),
            int(rows[names[2] if side else names[3]].sum()),
        )
        for name, side, burden in sides
    )
    unplaced = _tally(aside.filter(is_guarded.is_null()), "why")
    return Burdens((guarded, bare), found.ratio, unplaced)


def _group(  # noqa: PLR0913, PLR0917 - each says one thing of it
    name: str,
    burden: Estimate,
    level: float,
    counted: pl.DataFrame,
    aside: pl.DataFrame,
    exposures: int,
) -> GroupBurden:
    most = counted.group_by("athlete_no").len()["len"].to_list()
    return GroupBurden(
        name,
        burden,
        severity(counted["days_lost"].to_list(), counted["is_open"].to_list(), level=level),
        exposures,
        _tally(counted, "onset"),
        _tally(counted, "mechanism"),
        max(most, default=0),
        _tally(aside, "why"),
    )


def _tally(rows: pl.DataFrame, column: str) -> Mapping[str, int]:
    """Return how often each word stands in a column, the most frequent first."""
    told = Counter(rows[column].fill_null(NOT_RECORDED).to_list())
    return dict(sorted(told.items(), key=lambda one: (-one[1], one[0])))


def tally_words(tally: Mapping[str, int]) -> str:
    """Return a tally in words: `5 acute, 2 not recorded`."""
    return ", ".join(f"{words.whole(count)} {word}" for word, count in tally.items())
