"""Lines, tables and CSV that every answer in text is made of."""

import csv
import io
import textwrap
from collections.abc import Callable, Iterable, Sequence
from typing import Any

from seasonboard.answers import words
from seasonboard.answers.base import Summary
from seasonboard.answers.cards import Card
from seasonboard.answers.safe_text import one_line

_WIDTH = 96


def page(summary: Summary, body: list[str]) -> str:
    """Return question, answer, body, what was left out, and what to keep in mind."""
    lines = [summary.question, *prose(summary.answer), "", *body, ""]
    if summary.doubts is not None:
        lines += [*prose(summary.doubts_line()), ""]
    if summary.left_out:
        lines.append("Left out:")
        for left in summary.left_out:
            counted = f"  {words.whole(left.count):>9}  {left.what}: {left.why}"
            lines += prose(counted, hang=" " * 13)
        lines.append("")
    for caveat in summary.caveats:
        lines += prose(f"* {caveat}", hang="  ")
    return "\n".join(lines) + "\n"


def prose(text: str, *, hang: str = "") -> list[str]:
    """Return a paragraph as lines; those after the first begin with `hang`. Keys stay whole."""
    return textwrap.wrap(text, _WIDTH, subsequent_indent=hang, break_on_hyphens=False)


def listed(heading: str, texts: Callable[[Any], Iterable[str]]) -> Callable[[Any], list[str]]:
    """Return what gives paragraphs of an answer under a heading; nothing where there are none."""

    def lines(answer: object) -> list[str]:
        inner = [line for text in texts(answer) for line in prose(f"  {text}", hang="    ")]
        return [heading, *inner] if inner else []

    return lines


def table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
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


def as_csv(heads: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    """Return rows under headings as CSV; None becomes an empty cell."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return out.getvalue()


def cards_text(cards: Iterable[Card]) -> str:
    """Return method cards as lines of text: what each number is, and how it is made."""
    lines: list[str] = []
    for card in cards:
        lines += [card.title, *prose(card.what)]
        for heading, text in (
            ("Formula", card.formula),
            ("Reading it", card.reading),
            ("Source", card.source),
            ("Question", f"queries/{card.query}.sql"),
        ):
            lines += prose(f"{heading}: {text}", hang="  ")
        lines.append("")
    return "\n".join(lines)
