"""What injuries cost the guarded and the bare, described for every reader."""

from typing import TYPE_CHECKING, NamedTuple

from seasonboard.answers import words
from seasonboard.answers.compare.burden import GroupBurden, tally_words
from seasonboard.answers.compare.comparisons import CRUDE, Comparison
from seasonboard.answers.estimate_fields import estimate
from seasonboard.answers.fields import Element, Field, Group, Kind, Table, for_people, of
from seasonboard.answers.layout import prose
from seasonboard.answers.severity_fields import SEVERITY, severity_words
from seasonboard.stats.estimate import Estimate

if TYPE_CHECKING:
    from seasonboard.answers.compare.parts import CompareAnswer


def _days(group: GroupBurden) -> str:
    least = "at least " if group.is_lower_bound else ""
    return f"{least}{words.whole(group.severity.days)}"


def _limits(group: GroupBurden) -> str:
    burden = group.burden
    if burden.low is None:
        return "–" if burden.value is None else "no limits"
    return f"{words.number(burden.low, digits=1)}–{words.number(burden.high, digits=1)}"


BURDEN = Table(
    "burden",
    of("burden.groups"),
    (
        Field("group", "guarded or bare", get=of("name"), heading="days lost"),
        for_people("injuries", "injuries", lambda one: words.whole(one.severity.injuries),
            Kind.COUNT),
        for_people("days", "days", _days, Kind.COUNT),
        Field("exposures", "site-exposures", Kind.COUNT, heading="exposures"),
        estimate("days_per_1000", of("burden"), "days lost per 1000 of them, by athlete",
            kind=Kind.TENTHS, is_flat=True, heading="per 1000"),
        for_people("interval", lambda answer: words.level_words(answer.summary.scope), _limits,
            Kind.TENTHS),
        Field("is_lower_bound", "whether some injuries are open, and will cost more", Kind.FLAG),
        Group("severity", of("severity"), SEVERITY, "days lost by injuries"),
        Field("onsets", "injuries by mode of onset"),
        Field("mechanisms", "injuries by contact"),
        Field("most_of_one", "injuries of the athlete who has most of them", Kind.COUNT),
        Field("set_aside", "injuries not in the comparison, by reason"),
    ),
    "what injuries cost the guarded or the bare",
)  # fmt: skip


class Costed(NamedTuple):
    """A comparison, and the burden of its groups: of the crude one alone, whose groups they are."""

    comparison: Comparison
    guarded: GroupBurden | None
    bare: GroupBurden | None


def costed(answer: "CompareAnswer") -> list[Costed]:
    """Return every comparison with the burden of its groups."""
    groups = answer.burden.groups
    return [Costed(one, *(groups if one.name == CRUDE else (None, None)))
            for one in answer.comparisons]  # fmt: skip


BY_GROUP = tuple(
    Group(f"burden_{name}", of(name), BURDEN.elements[1:], f"what injuries cost the {name}")
    for name in ("guarded", "bare")
)
"""The burden of both groups in a row of CSV."""
BURDEN_ELEMENTS: tuple[Element, ...] = (
    BURDEN,
    estimate(
        "burden_ratio", of("burden.ratio"), "days per 1000 guarded over bare", kind=Kind.RATIO
    ),
    Field(
        "set_aside_not_known",
        "injuries not in the comparison, nobody knows whether guarded, by reason",
        get=of("burden.unplaced"),
    ),
)


def burden_notes(group: GroupBurden) -> list[str]:
    """Return the severity of a group's injuries, how they came about, and what is set aside."""
    if not group.severity.injuries and not group.set_aside:
        return []
    notes = [severity_words(group.severity)] if group.severity.injuries else []
    for heading, tally in (
        ("Onset", group.onsets), ("Contact", group.mechanisms), ("Set aside", group.set_aside),
    ):  # fmt: skip
        notes += [f"{heading}: {tally_words(tally)}."] if tally else []
    return notes


def ratio_words(ratio: Estimate) -> str:
    """Return days lost per 1000, guarded over bare, in one sentence."""
    if ratio.value is None:
        return f"Days lost per 1000, guarded over bare: not known, {ratio.why}."
    limits = words.interval(ratio.low, ratio.high)
    why = f"; {ratio.why}" if ratio.why and ratio.low is None else ""
    shown = f" ({limits})" if ratio.low is not None else ""
    return f"Days lost per 1000, guarded over bare: {words.ratio(ratio.value)}{shown}{why}."


def burden_lines(answer: "CompareAnswer") -> list[str]:
    """Return the ratio, then what is to be said of each group, as lines."""
    burden = answer.burden
    lines = prose(ratio_words(burden.ratio))
    for group in burden.groups:
        for text in burden_notes(group):
            lines += prose(f"{group.name:<8} {text}", hang=" " * 9)
    if burden.unplaced:
        lines += prose(f"Set aside, not known whether guarded: {tally_words(burden.unplaced)}.")
    return lines
