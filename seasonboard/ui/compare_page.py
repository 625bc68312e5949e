"""The page of the Compare screen, drawn from its answer."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui import parts
from seasonboard.ui.blocks import GAP, Block, Paper, title
from seasonboard.ui.forest import forest
from seasonboard.ui.format import fit, right

if TYPE_CHECKING:
    from seasonboard.answers.compare import CompareAnswer
    from seasonboard.stats.rates import Rate

_RATE_COLUMNS = (("exposures", 14), ("injuries", 11), ("per 1000", 12), ("", 17))


def compare_page(answer: "CompareAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, verdict, forest, rates, what was left out, and what to keep in mind."""
    level = words.level_words(answer.said.scope)
    head, lines = forest(answer.comparisons, level, paper)
    comparisons = [
        Block(
            drawn,
            name=comparison.name,
            card=comparison.name,
            opens=f"strata:{comparison.name}",
        )
        for comparison, drawn in zip(answer.comparisons, lines, strict=True)
    ]
    return [
        *parts.opening(answer.said, paper, card="verdict", opens="injuries"),
        GAP,
        Block(head),
        *comparisons,
        GAP,
        Block((_rate_head(level, paper),)),
        _rate("guarded", answer.guarded, paper),
        _rate("bare", answer.unguarded, paper),
        *_why_no_rate(answer, paper),
        *parts.left_out(answer.said, paper),
        *parts.caveats(answer.said, paper, card=answer.comparisons[0].name),
    ]


def _rate_head(level: str, paper: Paper) -> Text:
    heads = [(head or level, cells) for head, cells in _RATE_COLUMNS]
    text = " " * 10 + "".join(right(head, cells) for head, cells in heads)
    return Text(text, style=paper.ink.quiet)


def _rate(name: str, rate: "Rate", paper: Paper) -> Block:
    limits = (
        rate.why or "no limits yet"
        if rate.low is None or rate.high is None
        else f"{words.number(rate.low)}–{words.number(rate.high)}"
    )
    figures = (
        words.whole(rate.exposures),
        words.whole(rate.injuries),
        words.number(rate.rate),
        limits,
    )
    text = Text(fit(f" {name}", 10), style=paper.ink.group(guarded=name == "guarded"))
    for figure, (_, cells) in zip(figures, _RATE_COLUMNS, strict=True):
        text.append(right(figure, cells), "not bold")
    return Block((text,), name=f"rate {name}", card="rate", opens="athletes")


def _why_no_rate(answer: "CompareAnswer", paper: Paper) -> list[Block]:
    """Say what is missing before anything can be compared."""
    if answer.guarded.exposures or answer.unguarded.exposures:
        return []
    return [title("Attendance makes exposures: none is recorded in this scope.", paper)]
