"""Answers as text to read in a terminal, and as CSV for a spreadsheet."""

import csv
import io
import textwrap
from collections.abc import Sequence

from seasonboard.answers import words
from seasonboard.answers.base import Said
from seasonboard.answers.compare import CompareAnswer
from seasonboard.answers.games_parts import GamesAnswer, Group
from seasonboard.answers.plain import one_line
from seasonboard.stats.log_rank import LogRank
from seasonboard.stats.rates import Rate
from seasonboard.stats.survival import Quantile, RestrictedMean

_WIDTH = 96


def compare_text(answer: CompareAnswer) -> str:
    """Return the Compare answer as lines of text."""
    rows = [
        (
            comparison.name,
            words.ratio(comparison.ratio.rate_ratio),
            words.limits(comparison.ratio.low, comparison.ratio.high),
            f"{comparison.ratio.injuries_guarded} v {comparison.ratio.injuries_unguarded}",
            f"{comparison.ratio.informative_strata} of {words.whole(comparison.ratio.strata)}",
            comparison.ratio.why,
        )
        for comparison in answer.comparisons
    ]
    level = words.level_words(answer.said.scope)
    heads = ("comparison", "ratio", level, "hurt, guarded v bare", "strata that inform", "")
    return _text(
        answer.said,
        [
            *_table(heads, rows),
            "",
            _rate_line("guarded", answer.guarded),
            _rate_line("bare", answer.unguarded),
        ],
    )


def games_text(answer: GamesAnswer) -> str:
    """Return the Games answer as lines of text, with the ticks at which something happened."""
    clock = answer.options.clock.value.rstrip("s")
    heads = (clock, "guarded", "hurt", "uninjured", "bare", "hurt", "uninjured")
    guarded = {p.tick: p for p in answer.guarded.compared.points}
    bare = {p.tick: p for p in answer.unguarded.compared.points}
    ticks = sorted(
        tick
        for tick in guarded.keys() | bare.keys()
        if any(tick in side and side[tick].injuries for side in (guarded, bare))
    )
    rows = []
    for tick in ticks:
        cells = [str(tick)]
        for side in (guarded, bare):
            point = side.get(tick)
            share = None if point is None or point.survival is None else point.survival * 100
            cells += [
                str(point.at_risk) if point else "0",
                str(point.injuries) if point else "0",
                "–" if share is None else f"{share:.1f} %",
            ]
        rows.append(tuple(cells))
    return _text(
        answer.said,
        [
            *_table(heads, rows),
            "",
            *(_group_line(group) for group in answer.groups),
            f"log-rank      {_test(answer.log_rank)}",
            f"  in strata   {_test(answer.log_rank_stratified)}",
        ],
    )


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
    return _csv(("comparison", *names), rows)


def games_csv(answer: GamesAnswer) -> str:
    """Return both curves as CSV, unrounded; empty where nothing is known."""
    names = (
        "tick",
        "at_risk",
        "injuries",
        "entered",
        "left",
        "survival",
        "std_error",
        "low",
        "high",
    )
    rows = [
        (group.name, *(getattr(point, name) for name in names))
        for group in answer.groups
        for point in group.curve.points
    ]
    return _csv(("group", *names), rows)


def _text(said: Said, body: list[str]) -> str:
    lines = [said.question, *_prose(said.answer), "", *body, ""]
    if said.left_out:
        lines.append("Left out:")
        lines += [
            f"  {words.whole(left.count):>9}  {left.what}: {left.why}" for left in said.left_out
        ]
        lines.append("")
    for caveat in said.caveats:
        lines += _prose(f"* {caveat}", hang="  ")
    return "\n".join(lines) + "\n"


def _prose(text: str, *, hang: str = "") -> list[str]:
    return textwrap.wrap(text, _WIDTH, subsequent_indent=hang)


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Return rows under headings; the first column stands left, the others right."""
    if not rows:
        return []
    cells = [tuple(one_line(cell) for cell in row) for row in (heads, *rows)]
    wide = [max(len(row[i]) for row in cells) for i in range(len(heads))]
    last = len(heads) - 1
    return [
        "  ".join(
            cell.ljust(width) if i in {0, last} else cell.rjust(width)
            for i, (cell, width) in enumerate(zip(row, wide, strict=True))
        ).rstrip()
        for row in cells
    ]


def _rate_line(name: str, rate: Rate) -> str:
    counted = (
        f"{name:<8} {words.whole(rate.exposures):>9} site-exposures  "
        f"{words.plural(rate.injuries, 'injury', 'injuries'):>12}"
    )
    if rate.rate is None:
        return f"{counted}  {rate.why}"
    low, high = words.number(rate.low), words.number(rate.high)
    return f"{counted}  {words.number(rate.rate)} per 1000 ({low} to {high})"


def _group_line(group: Group) -> str:
    name = "guarded" if group.name == "guarded" else "bare"
    return (
        f"{name:<8} {words.plural(group.athletes, 'athlete')}, "
        f"{words.plural(group.injuries, 'injury', 'injuries')}, "
        f"{words.whole(group.left)} left uninjured; median {_quantile(group.median)}; "
        f"{_mean(group.restricted_mean)}"
    )


def _quantile(found: Quantile) -> str:
    if found.value is None:
        return found.why
    high = "not reached" if found.high is None else str(found.high)
    return f"{found.value} ({'–' if found.low is None else found.low} to {high})"


def _mean(found: RestrictedMean) -> str:
    if found.mean is None:
        return f"mean not known: {found.why}"
    start = f" from {found.start}" if found.start and found.start > 1 else ""
    error = words.number(found.std_error)
    return f"mean{start} up to {found.horizon}: {words.number(found.mean)} (SE {error})"


def _test(test: LogRank) -> str:
    if test.chi_square is None or test.p is None:
        return test.why
    shown = f"{test.p:.3f}" if test.p >= 0.001 else "under 0.001"
    expected = words.number(test.expected, digits=1)
    return (
        f"chi-square {words.number(test.chi_square)}, p {shown}: "
        f"{test.observed} guarded injuries, {expected} expected without a difference"
    )


def _csv(heads: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return out.getvalue()
