"""The Take-up answer as text to read in a terminal, and as CSV for a spreadsheet."""

from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.layout import as_csv, page, table
from seasonboard.answers.take_up.parts import STEPS, Step, TakeUpAnswer, TakeUpGroup
from seasonboard.answers.take_up.words import beside_step
from seasonboard.stats.clustered_shares import ClusteredShare
from seasonboard.stats.proportions import Proportion


def take_up_text(answer: TakeUpAnswer) -> str:
    """Return the Take-up answer as lines of text."""
    body = [
        *_steps(answer),
        "",
        *_table("kind", answer.kinds),
        *([] if answer.by == "kind" else _table(answer.by.value, answer.groups)),
        *_weeks(answer.whole),
        *_reasons(answer),
        *_breaks(answer),
    ]
    return page(answer.summary, body[:-1] if body[-1] == "" else body)


def _steps(answer: TakeUpAnswer) -> list[str]:
    level = words.level_words(answer.summary.scope)
    heads = ("step", "athletes", "of the step before", level, "of the eligible", level, "")
    return table(heads, [_step_row(step, answer.whole) for step in answer.whole.steps])


def _step_row(step: Step, group: TakeUpGroup) -> tuple[str, ...]:
    return (
        step.step,
        words.whole(step.count),
        *_share(step.of_before),
        *_share(step.of_eligible),
        beside_step(step, group),
    )


def _share(share: Proportion | ClusteredShare) -> tuple[str, str]:
    if share.share is None:
        return "–", "–"
    if share.low is None or share.high is None:
        return words.percent(share.share), "–"
    return words.percent(share.share), f"{share.low * 100:.0f} to {share.high * 100:.0f} %"


def _table(heading: str, groups: Sequence[TakeUpGroup]) -> list[str]:
    if not groups:
        return []
    heads = (heading, *STEPS, "worn in", "limits", "of sessions")
    rows = [
        (
            group.group,
            *(words.whole(step.count) for step in group.steps),
            *_share(group.worn),
            words.whole(group.worn.trials),
        )
        for group in groups
    ]
    return [*table(heads, rows), ""]


def _weeks(group: TakeUpGroup) -> list[str]:
    if not group.weeks:
        return []
    rows = [
        (
            week.week.isoformat(),
            *_share(week.worn),
            words.whole(week.worn.trials),
            words.whole(week.worn.clusters),
        )
        for week in group.weeks
    ]
    return [*table(("week from", "worn in", "limits", "of sessions", "athletes"), rows), ""]


def _reasons(answer: TakeUpAnswer) -> list[str]:
    if not answer.reasons:
        return []
    rows = [
        (each.answer, words.whole(each.count), each.reason or "no reason recorded")
        for each in answer.reasons
    ]
    return [*table(("answer", "offers", "reason"), rows), ""]


def _breaks(answer: TakeUpAnswer) -> list[str]:
    if not answer.breaks:
        return []
    lines = [f"  {words.whole(each.athletes):>5}  {each.what}" for each in answer.breaks]
    return ["Out of order, in athletes (counted above):", *lines, ""]


def take_up_csv(answer: TakeUpAnswer) -> str:
    """Return the steps of every group as CSV, unrounded; empty where nothing is known."""
    heads = (
        "by",
        "group",
        *STEPS,
        "declined",
        "undecided",
        "waiting",
        "sessions_worn",
        "sessions",
        "athletes_fitted_in_sessions",
        "worn_share",
        "low",
        "high",
    )
    sets = (("all", (answer.whole,)), ("kind", answer.kinds), (answer.by.value, answer.groups))
    rows = {
        (by, group.group): (by, group.group, *_counts(group))
        for by, groups in sets
        for group in groups
    }
    return as_csv(heads, list(rows.values()))


def _counts(group: TakeUpGroup) -> tuple[object, ...]:
    worn = group.worn
    return (
        *(step.count for step in group.steps),
        group.declined,
        group.undecided,
        group.waiting,
        worn.successes,
        worn.trials,
        worn.clusters,
        worn.share,
        worn.low,
        worn.high,
    )
