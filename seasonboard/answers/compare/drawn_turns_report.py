"""Drawn turns of the Compare answer described, for every reader."""

from typing import TYPE_CHECKING

from seasonboard.answers.compare.drawn_turns import turns_sentences
from seasonboard.answers.estimate_fields import estimate, interval
from seasonboard.answers.fields import Element, Field, Group, Kind, Table, of, why
from seasonboard.answers.layout import prose

if TYPE_CHECKING:
    from seasonboard.answers.compare.parts import CompareAnswer

_FIELDS: tuple[Element, ...] = (
    Field("ratio", "rate, turn come over waiting", Kind.RATIO, get=of("comparison.ratio.value")),
    Group("", of("comparison.ratio"), interval(Kind.RATIO)),
    Group(
        "",
        of("comparison.ratio"),
        (
            Field("injuries_come", "injuries, turn come", Kind.COUNT, of("injuries_guarded")),
            Field("injuries_waiting", "injuries, waiting", Kind.COUNT, of("injuries_unguarded")),
            Field("exposures_come", "exposures, turn come", Kind.COUNT, of("exposures_guarded")),
            Field("exposures_waiting", "those waiting", Kind.COUNT, of("exposures_unguarded")),
            Field("strata", "sessions of a team compared within", Kind.COUNT),
            Field("informative_strata", "those with an injury and both groups", Kind.COUNT),
            Field("informative_injuries", "their injuries", Kind.COUNT),
            Field("p", "two-sided p against a ratio of 1", Kind.THOUSANDTHS),
            Field("method", "how ratio, confidence interval and p were made"),
            why(of("why")),
        ),
    ),
    estimate(
        *("compliers", of("compliers"), "ratio among those who wear it once their turn has come"),
        kind=Kind.RATIO,
        key="ratio",
    ),
    Field("unrecorded", "injuries that it leaves out: not known whether worn", Kind.COUNT),
    Group(
        "injuries_needed",
        of("needed"),
        (
            Field("ratio", "ratio that is to be told from 1", Kind.RATIO),
            Field("power", "chance to tell it", Kind.SHARE),
            Field("weeks", "weeks from the first turn to the last", Kind.TENTHS),
            Field("injuries", "injuries at drawn sites that this takes in all", Kind.COUNT),
            Field("more", "those that are still missing", Kind.COUNT),
            why(of("why")),
        ),
        "how many injuries at drawn sites it takes",
    ),
    Field("verdict", "what the ratio allows one to say"),
    Table(
        "draws",
        of("draws"),
        (
            Field("draw", "key of the draw"),
            Field("drawn_on", "its day", Kind.DAY),
            Field("last_week", "week of printing of its last turn", Kind.COUNT),
            Field("turns", "turns of the scope's athletes", Kind.COUNT),
            Field("jumped", "turns made out of turn", Kind.COUNT),
            Field("board_number", "number of the review board", optional=True),
            Field("no_board_reason", "why no board was needed", optional=True),
        ),
        "a draw",
    ),
)


def drawn_turns_group(exact: tuple[Element, ...], anytime_valid: tuple[Element, ...]) -> Group:
    """Describe drawn turns; `exact` and `anytime_valid` are the fields of such intervals."""
    both = (
        Group("exact", of("comparison.ratio.exact"), exact, "exact confidence interval"),
        Group("peek_proof", of("watched.now"), anytime_valid, "the same, anytime-valid"),
    )
    meaning = "rate of drawn sites whose turn had come over that of those waiting; null: no draw"
    return Group("drawn_turns", of("drawn_turns"), (*_FIELDS, *both), meaning)


def turns_lines(answer: "CompareAnswer") -> list[str]:
    """Return what drawn turns show in sentences; nothing without a draw."""
    if answer.drawn_turns is None:
        return []
    return [line for one in turns_sentences(answer.drawn_turns) for line in prose(one)]
