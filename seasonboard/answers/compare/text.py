"""The Compare answer as text to read in a terminal, and as CSV for a spreadsheet."""

from seasonboard.answers import words
from seasonboard.answers.compare.comparisons import Comparison
from seasonboard.answers.compare.hours import RATIOS_STAY, Hours, Per, hours_word
from seasonboard.answers.compare.parts import CompareAnswer
from seasonboard.answers.layout import as_csv, page, prose, table
from seasonboard.stats.rates import Rate


def compare_text(answer: CompareAnswer) -> str:
    """Return the Compare answer as lines of text."""
    rows = [_row(c) for c in (*answer.comparisons, answer.decliners)]
    level = words.level_words(answer.summary.scope)
    heads = ("comparison", "ratio", level, "by athlete", "guarded v bare", "informing", "")
    return page(
        answer.summary,
        [
            *table(heads, rows),
            "",
            *_areas(answer),
            *_rate_lines(answer),
            "",
            *prose(_watched_line(answer)),
            *prose(_needed_line(answer)),
        ],
    )


def _row(comparison: Comparison) -> tuple[str, ...]:
    ratio, clustered = comparison.ratio, comparison.clustered
    return (
        comparison.name,
        words.ratio(ratio.rate_ratio),
        words.limits(ratio.low, ratio.high),
        "–" if clustered.why else words.limits(clustered.low, clustered.high),
        f"{ratio.injuries_guarded} v {ratio.injuries_unguarded}",
        f"{ratio.informative_strata} of {words.whole(ratio.strata)}",
        ratio.why,
    )


def _areas(answer: CompareAnswer) -> list[str]:
    if not answer.areas:
        return []
    heads = ("same session, by area", "ratio", "limits", "p", "p adjusted", "guarded v bare")
    rows = [
        (
            each.area,
            words.ratio(each.ratio.rate_ratio),
            words.limits(each.ratio.low, each.ratio.high),
            words.number(each.ratio.p, digits=3),
            words.number(each.p_adjusted, digits=3),
            f"{each.ratio.injuries_guarded} v {each.ratio.injuries_unguarded}",
        )
        for each in answer.areas
    ]
    return [*table(heads, rows), ""]


def _watched_line(answer: CompareAnswer) -> str:
    now = answer.watched.now
    rests = words.plural(now.injuries, "injury", "injuries")
    return (
        f"Peek-proof: {words.ratio(now.rate_ratio)} ({words.limits(now.low, now.high)}), "
        f"anytime evidence {words.ratio(now.anytime_evidence)} from {rests}"
        f"{f'; {now.why}' if now.why else ''}."
    )


def _needed_line(answer: CompareAnswer) -> str:
    need = answer.sample_needed
    opening = f"To tell {need.ratio:g} from 1 with {words.percent(need.power)} power"
    if need.more_guarded is None:
        return f"{opening}: not known ({need.why})."
    if need.more_guarded == 0:
        return f"{opening}: enough has been seen."
    games = (
        ""
        if answer.games_needed is None
        else (f", some {words.whole(answer.games_needed)} games at this pace")
    )
    return f"{opening}: about {words.whole(need.more_guarded)} more guarded exposures{games}."


def compare_csv(answer: CompareAnswer) -> str:
    """Return the comparisons as CSV, unrounded; empty where nothing is known."""
    names = (
        "injuries_guarded",
        "injuries_unguarded",
        "exposures_guarded",
        "exposures_unguarded",
        "strata",
        "informative_strata",
        "rate_ratio",
        "low",
        "high",
        "p",
        "method",
    )
    rows = [
        (comparison.name, *(getattr(comparison.ratio, name) for name in names))
        for comparison in answer.comparisons
    ]
    return as_csv(("comparison", *names), rows)


def _rate_lines(answer: CompareAnswer) -> list[str]:
    if answer.per is Per.EXPOSURES:
        return [_rate_line("guarded", answer.guarded), _rate_line("bare", answer.unguarded)]
    lines = [
        _hours_line(name, group)
        for name, group in zip(("guarded", "bare"), answer.hours, strict=True)
    ]
    return [*lines, *prose(RATIOS_STAY)]


def _hours_line(name: str, hours: Hours) -> str:
    rate = hours.rate
    if rate.rate is None:
        return f"{name:<8} {hours.why}"
    low, high = words.number(rate.low), words.number(rate.high)
    return (
        f"{name:<8} {hours_word(rate.hours):>9} site-hours      "
        f"{words.plural(rate.injuries, 'injury', 'injuries'):>12}  "
        f"{words.number(rate.rate)} per 1000 hours ({low} to {high})"
    )


def _rate_line(name: str, rate: Rate) -> str:
    counted = (
        f"{name:<8} {words.whole(rate.exposures):>9} site-exposures  "
        f"{words.plural(rate.injuries, 'injury', 'injuries'):>12}"
    )
    if rate.rate is None:
        return f"{counted}  {rate.why}"
    low, high = words.number(rate.low), words.number(rate.high)
    return f"{counted}  {words.number(rate.rate)} per 1000 ({low} to {high})"
