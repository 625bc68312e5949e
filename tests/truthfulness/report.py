"""RESULTS.md: what the study found, right versions first, wrong ones apart."""

from collections.abc import Sequence
from datetime import UTC, datetime
from itertools import groupby

from seasonboard.answers.compare.verdict import (
    DISAGREE,
    LESS,
    MORE,
    NO_LARGE,
    NONE_YET,
    NOTHING,
    TOO_FEW,
)
from tests.truthfulness.reading import reading
from tests.truthfulness.study import Result
from tests.truthfulness.tables import (
    RIGHT,
    bounds_table,
    false_table,
    fared_table,
    markdown,
    other_bounds_table,
    percent,
    place,
)
from tests.truthfulness.wrong import WHY

_SEASON = """\
A season has 10 teams of two sports, 25 athletes each in four position groups, two sites per
athlete, 72 sessions over 16 weeks, about a fifth of them games. The traps of a real one: guards
are asked for at staggered days up to mid-season and fitted some sessions later; position groups
at high risk, and those who play most games, take up more (indication); injuries are three and a
half times as dense in the first week as at the end; a game is 3.5 times as risky as a practice; a
fitted guard stays in the bag in one session of ten to seven; after an injury the athlete misses
some sessions, or the rest of the season; a site leaves the preventive view at its first injury.
The statistics are those of the board, applied to each season as its queries would count it.
"""

_HOW = """\
Numbers with / between them are for the planted ratios named in the heading.
*Coverage*: share of the seasons with an interval whose 95 % interval holds the planted ratio, ▼
under 93 %, ▲ over 97 % where the interval should not be, in brackets where its model does not hold
and no bound applies. *Given*: seasons with an interval at all. *Width*: log(high / low), ∞ where a
side is open. *Bias*: estimated minus planted log ratio; *pooled* over all seasons (free of small
numbers), and in the *median season*. *“Fewer injuries”*: the interval lies under 1; at ratio 1
that is a false declaration, else it is power.
"""

_WRONG = """\
**None of this is in the product, and none of it should be.** Each version differs from a right one
in one step; the right one stands under it.
"""

_SHOW_WRONG = ("plain", "many injuries", "many, nobody out", "guard after injury", "no indication")
_BESIDE = ("same session", "peek-proof, any weekly look", "alike athletes", "same athlete")


def report(results: Sequence[Result], *, seed: int, command: str) -> str:
    """Return the report in Markdown."""
    seasons = results[0].seasons
    by_variation = {
        key: list(group) for key, group in groupby(results, lambda r: r.scenario.variation)
    }
    error = 1.96 * (0.95 * 0.05 / seasons) ** 0.5
    parts = [
        "# Are the intervals as truthful as they say?\n",
        f"{datetime.now(UTC):%Y-%m-%d} · seed {seed} · {seasons} simulated seasons for each of "
        f"{len(results)} scenarios · made by\n`{command}`\n",
        "## In short\n",
        reading(results),
        "## Required bounds\n",
        "Over the scenarios in which the interval's model holds. With this many seasons a coverage "
        f"is known to about ±{error * 100:.1f} points.\n",
        bounds_table(results),
        other_bounds_table(results),
        false_table(results),
        "## The seasons\n",
        _SEASON,
        markdown(("kind of season", "what differs"), [(v.name, v.says) for v in by_variation]),
        "## Intervals shown by the board\n",
        _HOW,
    ]
    for variation, own in by_variation.items():
        parts += [f"### {variation.name} ({_ratios(own)})\n", f"{variation.says.capitalize()}.\n"]
        parts.append(fared_table(own, RIGHT))
    parts += ["## The sentence on the board\n", _verdicts(results)]
    parts += ["## Rates\n", _rates(results)]
    parts += ["## Wrong versions\n", _WRONG]
    parts += ["\n".join(f"- *{name}.* {why}" for name, why in WHY.items()) + "\n"]
    for variation, own in by_variation.items():
        if variation.name in _SHOW_WRONG:
            parts += [
                f"### Wrong, {variation.name} ({_ratios(own)})\n",
                fared_table(own, WHY, judged=False),
                f"Right, {variation.name}:\n",
                fared_table(own, _BESIDE),
            ]
    return "\n".join(parts)


def _ratios(results: Sequence[Result]) -> str:
    return "ratio " + " / ".join(f"{r.scenario.ratio:g}" for r in results)


def _verdicts(results: Sequence[Result]) -> str:
    summary = (LESS, MORE, DISAGREE, NO_LARGE, NONE_YET, TOO_FEW, NOTHING)
    rows = [[place(r), *(percent(r.verdicts.get(s, 0.0)) for s in summary)] for r in results]
    return "How often each sentence is said, in % of seasons.\n\n" + markdown(
        ("season", *summary), rows
    )


def _rates(results: Sequence[Result]) -> str:
    words = (
        "Coverage (%) of the exact Poisson interval of a rate in the preventive view: of the rate "
        "these athletes truly had in these sessions, and of the long-run rate over many such "
        "seasons with other athletes.\n\n"
    )
    rows = [
        [
            place(r),
            *(
                cell
                for rate in r.rates
                for cell in (
                    f"{rate.injuries:.1f}",
                    percent(rate.of_these),
                    percent(rate.of_long_run),
                )
            ),
        ]
        for r in results
    ]
    head = ("bare injuries", "of these", "long-run", "guarded injuries", "of these", "long-run")
    return words + markdown(("season", *head), rows)
