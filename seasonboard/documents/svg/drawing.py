"""The pieces that every picture is drawn with: inert, escaped, the same on screen and in print.

Sizes are in the drawing's own units: few across, so that letters can be read on a phone too.
Colours are those of Okabe & Ito (2008), told apart by strokes and labels as well.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from seasonboard.saving.text import harmless

WIDE = 420
"""Units across, of every picture."""
INK, QUIET, RULE = "#1b1b1b", "#565656", "#c9c9c6"
BLUE, VERMILLION, GREEN, PURPLE = "#0072b2", "#d55e00", "#009e73", "#cc79a7"
FACE = "'Libertinus Serif', 'Iowan Old Style', Palatino, 'Palatino Linotype', Georgia, serif"
SIZE, SMALL = 14, 13
"""Sizes of type; nothing is smaller."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """How one of several lines is drawn: never told apart by colour alone."""

    colour: str
    dash: str = ""
    width: float = 2.2


STROKES = (
    Stroke(BLUE),
    Stroke(VERMILLION, "7 4"),
    Stroke(GREEN, "2 3.5"),
    Stroke(PURPLE, "10 3 2 3"),
    Stroke(INK, "4 2", 1.6),
)
MOST_LINES = len(STROKES)
"""Lines that can be told apart in one picture."""


def stroke(place: int) -> Stroke:
    """Return how the line of that place is drawn.

    Raises:
        ValueError: There are more lines than can be told apart.
    """
    if place >= MOST_LINES:
        raise ValueError(f"a picture has at most {MOST_LINES} lines that can be told apart")
    return STROKES[place]


@dataclass(frozen=True, slots=True)
class PictureWords:
    """The words of a picture; its `description` is for who cannot see it.

    `name` is letters that no other picture of the page has; they tie title and description to it.
    `axis` says what the level axis measures, `below` and `above` what lies left and right of the
    mark on it, `counts` what the counts below it are of.
    """

    name: str
    title: str
    description: str
    axis: str = ""
    below: str = ""
    above: str = ""
    counts: str = ""


def drawing(labels: PictureWords, high: float, pieces: Iterable[str]) -> str:
    """Return a whole picture of some height in units, its pieces from back to front."""
    name = labels.name
    head = f'<title id="{name}-title">{escape(harmless(labels.title))}</title>'
    head += f'<desc id="{name}-about">{escape(harmless(labels.description))}</desc>'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {_n(high)}" width="{WIDE}" '
        f'height="{_n(high)}" role="img" aria-labelledby="{name}-title {name}-about">{head}'
        f'<g font-family="{FACE}" font-size="{SIZE}" fill="{INK}">{"".join(pieces)}</g></svg>'
    )


def text(  # noqa: PLR0913 - where, what, how
    x: float,
    y: float,
    letters: str,
    *,
    anchor: str = "start",
    size: int = SIZE,
    colour: str = INK,
    is_bold: bool = False,
) -> str:
    """Return letters with their base line at `y`."""
    style = f' font-size="{size}"' if size != SIZE else ""
    style += f' fill="{colour}"' if colour != INK else ""
    style += ' font-weight="bold"' if is_bold else ""
    style += f' text-anchor="{anchor}"' if anchor != "start" else ""
    return f'<text x="{_n(x)}" y="{_n(y)}"{style}>{escape(harmless(letters))}</text>'


def line(  # noqa: PLR0913 - from where to where, how
    x1: float,
    y1: float,
    x2: float,
    y2: float,
    *,
    colour: str = RULE,
    width: float = 1,
    dash: str = "",
) -> str:
    """Return a straight line."""
    return path([(x1, y1), (x2, y2)], Stroke(colour, dash, width))


def path(points: Sequence[tuple[float, float]], stroke: Stroke) -> str:
    """Return a line through points."""
    dash = f" stroke-dasharray={quoteattr(stroke.dash)}" if stroke.dash else ""
    joined = "L".join(f"{_n(x)},{_n(y)}" for x, y in points)
    return (
        f'<path d="M{joined}" fill="none" stroke="{stroke.colour}" '
        f'stroke-width="{_n(stroke.width)}"{dash}/>'
    )


def box(  # noqa: PLR0913 - where, how large, how
    x: float,
    y: float,
    wide: float,
    high: float,
    *,
    colour: str,
    strength: float = 1,
    round_: float = 0,
) -> str:
    """Return a filled rectangle."""
    style = f' fill-opacity="{strength:g}"' if strength < 1 else ""
    style += f' rx="{_n(round_)}"' if round_ else ""
    return (
        f'<rect x="{_n(x)}" y="{_n(y)}" width="{_n(max(wide, 0))}" height="{_n(high)}" '
        f'fill="{colour}"{style}/>'
    )


def dot(x: float, y: float, radius: float, *, colour: str = INK) -> str:
    """Return a filled circle."""
    return f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}" fill="{colour}"/>'


def breadth(letters: str, size: int = SIZE) -> float:
    """Return about how many units text is wide; wide letters count double."""
    return sum(1.0 if ord(letter) > 0x2E80 else 0.56 for letter in letters) * size


def _n(value: float) -> str:
    """Return a coordinate with a tenth of a unit: finer is not seen."""
    return f"{round(value, 1):g}"
