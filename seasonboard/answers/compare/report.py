"""The Compare answer described: rates, comparisons and what they rest on, for every reader."""

from dataclasses import asdict

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import AreaRatio, Comparison
from seasonboard.answers.compare.hours import RATIOS_STAY, Per, hours_word
from seasonboard.answers.compare.parts import CompareAnswer, GroupRates
from seasonboard.answers.fields import Field, Group, Kind, Table, for_people, interval, of, why
from seasonboard.answers.layout import prose
from seasonboard.answers.report import Report
from seasonboard.stats.estimate import Estimate

_RATIO = "rate of guarded sites over that of bare ones"
_ROOM = 12
"""Cells that a count of injuries has in a line of text."""


def _level(answer: CompareAnswer) -> str:
    return words.level_words(answer.summary.scope)


def _counts(of_ratio: str) -> tuple[Field, Field]:
    return (
        Field("injuries_guarded", of(f"{of_ratio}.injuries_guarded"), "guarded", Kind.COUNT),
        Field("injuries_unguarded", of(f"{of_ratio}.injuries_unguarded"), "bare", Kind.COUNT),
    )


def _hurt(row: Comparison | AreaRatio) -> str:
    ratio = row.ratio
    return f"{words.whole(ratio.injuries_guarded)} v {words.whole(ratio.injuries_unguarded)}"
