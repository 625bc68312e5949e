"""Pages and pictures as text, and as drawings that need nothing from elsewhere."""

from collections.abc import Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from seasonboard.saving.about import About
from seasonboard.saving.text import harmless, without_codes

WIDE, HIGH = 8.4, 18.0
"""A cell of the drawing, in its units."""
_MARGIN = 16.0


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of a line: where it starts and how wide it is in cells, and its colours."""

    text: str
    start: int
    cells: int
    colour: str = ""
    ground: str = ""
    is_bold: bool = False


Line = Sequence[Run]


def as_text(lines: Sequence[str], about: About) -> bytes:
    """Return lines as text in UTF-8, with what they are under them."""
    body = "\n".join(without_codes(line).rstrip() for line in lines).strip("\n")
    return f"{body}\n\n{about.text()}".encode()


def as_svg(lines: Sequence[Line], about: About, *, colour: str, ground: str) -> bytes:
    """Return lines as a drawing: letters in their cells, with a title and a description."""
    across = max((run.start + run.cells for line in lines for run in line), default=1)
    width, height = across * WIDE + 2 * _MARGIN, len(lines) * HIGH + 2 * _MARGIN
    told = "; ".join(f"{heading}: {text}" for heading, text in about.lines())
    drawn = [piece for row, line in enumerate(lines) for run in line for piece in _drawn(row, run)]
    parts = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" '
        f'width="{width:g}" height="{height:g}" role="img" aria-labelledby="title about">',
        f'<title id="title">{escape(harmless(about.title))}</title>',
        f'<desc id="about">{escape(told)}</desc>',
        f'<rect width="100%" height="100%" fill={quoteattr(ground)}/>',
        '<g font-family="ui-monospace, Menlo, Consolas, DejaVu Sans Mono, monospace" '
        f'font-size="14" fill={quoteattr(colour)}>',
        *drawn,
        "</g>",
        "</svg>",
    ]
    return ("\n".join(parts) + "\n").encode()


def _drawn(row: int, run: Run) -> list[str]:
    text = without_codes(run.text)
    x, y = _MARGIN + run.start * WIDE, _MARGIN + row * HIGH
    wide = run.cells * WIDE
    found = []
    if run.ground:
        fill = quoteattr(run.ground)
        found.append(f'<rect x="{x:g}" y="{y:g}" width="{wide:g}" height="{HIGH:g}" fill={fill}/>')
    if text.strip():
        style = f" fill={quoteattr(run.colour)}" if run.colour else ""
        style += ' font-weight="bold"' if run.is_bold else ""
        found.append(
            f'<text x="{x:g}" y="{y + 13:g}" textLength="{wide:g}" '
            f'lengthAdjust="spacingAndGlyphs" xml:space="preserve"{style}>{escape(text)}</text>'
        )
    return found
