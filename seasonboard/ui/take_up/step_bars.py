"""Steps of which each is a part of the one before: a count and a bar each."""

from dataclasses import dataclass

from rich.text import Text

from seasonboard.answers import words
from seasonboard.ui.layout.blocks import Paper, paragraph
from seasonboard.ui.layout.format import clean, fit, right
from seasonboard.ui.pictures.marks import bar

_NAME, _COUNT = 10, 6
_LEAST, _MOST = 6, 24
_BESIDE = 54
"""Cells of a line beside its bar."""
INDENT = " " * (_NAME + _COUNT + 3)


@dataclass(frozen=True, slots=True)
class StepBar:
    """One step: how many came to it, what is said beside its bar, and in lines of its own below."""

    name: str
    count: int
    beside: str = ""
    under: str = ""


def step_bar(step: StepBar, first: int, paper: Paper) -> tuple[Text, ...]:
    """Return one step as a line: name, count, its share of the first step as a bar, and words.

    Args:
        step: What is drawn.
        first: How many there were at the first step: the whole bar.
        paper: What to draw on.
    """
    text = Text(f" {fit(clean(step.name), _NAME)}{right(words.whole(step.count), _COUNT)}  ")
    room = max(_LEAST, min(_MOST, paper.width - _BESIDE))
    text.append(bar(step.count / first if first else 0.0, room), paper.ink.guarded)
    text.append(f"  {clean(step.beside)}", paper.ink.quiet)
    text.truncate(paper.width)
    if not step.under:
        return (text,)
    return (text, *paragraph(step.under, paper.width, paper.ink.quiet, INDENT))
