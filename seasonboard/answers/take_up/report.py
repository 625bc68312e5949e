"""The Take-up answer described: every figure once, for text, JSON, CSV, pages and documents."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from seasonboard.answers import words
from seasonboard.answers.estimate_fields import estimate
from seasonboard.answers.fields import Element, Field, Group, Kind, Table, for_people, of, why
from seasonboard.answers.report import Report, table_text
from seasonboard.answers.take_up.parts import STEPS, Step, TakeUpAnswer, TakeUpBy, TakeUpGroup


def beside_step(step: Step, group: TakeUpGroup) -> str:
    """Return what became of those who did not take a step: `3 declined, 1 undecided`."""
    whole = words.whole
    others = {
        "accepted": f"{whole(group.declined)} declined, {whole(group.undecided)} undecided",
        "fitted": f"{whole(group.waiting)} still waiting for a first guard",
    }.get(step.step, "")
    without = f"{whole(step.without_before)} without the step before" if step.without_before else ""
    return "; ".join(part for part in (others, without) if part)


def _level_words(answer: TakeUpAnswer) -> str:
    return words.interval_words(answer.summary.scope)


_OF_BEFORE = estimate(
    *("of_before", of("of_before"), "share of those at the step before, 0 to 1"),
    kind=Kind.SHARE,
    key="share",
    heading="of the step before",
)
_OF_ELIGIBLE = estimate(
    *("of_eligible", of("of_eligible"), "share of the eligible, 0 to 1"),
    kind=Kind.SHARE,
    key="share",
    heading="of the eligible",
)
_STEPS = (
    Field("step", "eligible, offered, accepted, fitted or worn", heading="step"),
    Field("athletes", "athletes who reached it", Kind.COUNT, get=of("count"), heading="athletes"),
    _OF_BEFORE,
    _OF_ELIGIBLE,
    Field("without_before", "of them without the step before", Kind.COUNT),
)
_WORN = estimate(
    *("worn_share", of("worn"), "worn of sessions, 0 to 1"),
    kind=Kind.SHARE,
    key="share",
    heading="worn in",
    more=(
        Field("worn", "sessions with a guard worn", Kind.COUNT, get=of("successes")),
        Field(
            "sessions",
            "sessions taken part in with one fitted",
            Kind.COUNT,
            get=of("trials"),
            heading="of sessions",
        ),
        Field("athletes", "athletes with such a session", Kind.COUNT, of("clusters"), "athletes"),
    ),
)
_WORN_INTERVAL = for_people(
    "worn_interval", _level_words, lambda group: words.share_interval(group.worn), Kind.SHARE
)
WEEKS = Table(
    "weeks",
    of("weeks"),
    (
        Field("week", "its Monday", Kind.DAY, heading="week from"),
        replace(_WORN, name=""),
        _WORN_INTERVAL,
    ),
    "a week, and the share worn in it",
    reading=("week", "share", "worn_interval", "sessions", "athletes"),
)


def _count_of(step: str) -> Field:
    count = lambda group: group.step(step).count  # noqa: E731
    return Field(step, f"athletes {step}", Kind.COUNT, get=count, heading=step, in_json=False)


_NAME = Field("group", "name of the group")
_GROUP: tuple[Element, ...] = (
    _NAME,
    Table("steps", of("steps"), _STEPS, "a step, in their order"),
    *(_count_of(step) for step in STEPS),
    Field("declined", "offered, last answer no", Kind.COUNT),
    Field("undecided", "offered, not decided", Kind.COUNT),
    Field("waiting", "with an open order and none fitted yet", Kind.COUNT),
    _WORN,
    for_people("worn_words", "worn share", lambda g: words.share_words(g.worn), Kind.SHARE),
    _WORN_INTERVAL,
    WEEKS,
)
_READING = ("group", *STEPS, "worn_share.share", "worn_interval", "worn_share.sessions")
KINDS = Table(
    *("kinds", of("kinds"), (replace(_NAME, heading="kind"), *_GROUP[1:])),
    *("a guard kind, where there are several", _READING),
)
GROUPS = Table(
    *("groups", of("groups"), (replace(_NAME, heading=of("by")), *_GROUP[1:])),
    *("a group as asked for", _READING),
)
REASONS = Table(
    "reasons",
    of("reasons"),
    (
        Field("answer", "declined or undecided", heading="answer"),
        Field("count", "last offers answered so", Kind.COUNT, heading="offers"),
        Field(
            "reason",
            "why, as written",
            heading="reason",
            show=lambda reason: reason.reason or "no reason recorded",
        ),
        why(lambda reason: "" if reason.reason else "none was recorded"),
    ),
    "a reason for declining, the most frequent first",
)
BREAKS = Table(
    "out_of_order",
    of("breaks"),
    (
        Field("what", "what was recorded out of the order of the steps"),
        Field("athletes", "athletes whom it concerns", Kind.COUNT),
    ),
    "something recorded out of order, counted all the same",
)


@dataclass(frozen=True, slots=True)
class GroupRow:
    """One group, and what its groups stand for; `step` where it is a row of one step."""

    by: str
    group: TakeUpGroup
    step: Step | None = None


def _group_rows(answer: TakeUpAnswer) -> Iterator[GroupRow]:
    """Return everybody, then each kind, then each group; kinds once where they are the groups."""
    sets: Mapping[str, Sequence[TakeUpGroup]] = {
        "all": (answer.whole,),
        "kind": answer.kinds,
        answer.by.value: answer.groups,
    }
    return (GroupRow(by, group) for by, groups in sets.items() for group in groups)


def _interval_of(base: str) -> Field:
    of_base = of(f"step.of_{base}")
    return for_people(
        *(f"{base}_interval", _level_words, lambda row: words.share_interval(of_base(row))),
        Kind.SHARE,
    )


def _step_rows(answer: TakeUpAnswer) -> Iterator[GroupRow]:
    return (replace(row, step=one) for row in _group_rows(answer) for one in row.group.steps)


GROUP_ROWS = Table(
    "groups",
    _group_rows,
    (
        Field("by", "what the groups are: all, kind, team or position-group"),
        Group("", of("group"), _GROUP),
    ),
    "everybody, a guard kind, or a group as asked for",
)
STEP_ROWS = Table(
    "steps",
    _step_rows,
    (
        Field("by", "what the groups are", heading="by"),
        Field("group", "name of the group", get=of("group.group"), heading="group"),
        Group("", of("step"), _STEPS),
        _interval_of("before"),
        _interval_of("eligible"),
        for_people("others", "", lambda row: beside_step(row.step, row.group)),
    ),
    "a step of a group",
    reading=("by", "group", "step", "athletes", "of_before.share", "of_eligible.share"),
)
_WHOLE_STEPS = replace(
    STEP_ROWS,
    rows=lambda answer: (GroupRow("all", answer.whole, step) for step in answer.whole.steps),
    reading=(
        *("step", "athletes", "of_before.share", "before_interval"),
        *("of_eligible.share", "eligible_interval", "others"),
    ),
)


def _group_lines(answer: TakeUpAnswer) -> list[str]:
    return [] if answer.by is TakeUpBy.KIND else table_text(GROUPS, answer)


def _break_lines(answer: TakeUpAnswer) -> list[str]:
    lines = [f"  {words.whole(one.athletes):>5}  {one.what}" for one in answer.breaks]
    return ["Out of order, in athletes (counted above):", *lines] if lines else []


REPORT = Report(
    (
        Field("by", "what the groups are"),
        Group("", of("whole"), _GROUP),
        KINDS,
        GROUPS,
        REASONS,
        BREAKS,
    ),
    csv=GROUP_ROWS,
    text=(
        _WHOLE_STEPS,
        KINDS,
        _group_lines,
        replace(WEEKS, rows=of("whole.weeks")),
        REASONS,
        _break_lines,
    ),
)
