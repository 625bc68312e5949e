"""The page of the Games screen, drawn from its answer."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.games.curve_tables import PER_GAME, TICKS, TICKS_WITH_INJURY
from seasonboard.answers.games.words import clock_word
from seasonboard.ui.games.curves import at_risk_trend, misleading_picture, survival_picture
from seasonboard.ui.games.figures import endings, follow_up_ends, numbers
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import (
    GAP,
    INJURIES,
    Block,
    Opens,
    Paper,
    What,
    note,
    pictured,
    title,
)
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.format import right
from seasonboard.ui.layout.tables import column, heading, table_blocks

if TYPE_CHECKING:
    from seasonboard.answers.games.parts import GamesAnswer

_COLUMNS = {"at_risk": 7, "injuries": 5, "entered": 5, "left": 5, "survival": 9}
"""What stands of each group at a tick, and its cells across."""
_GUARDED, _BARE = 6, 42
"""Cells at which the columns of each group begin."""
LEAST_PICTURE, MOST_PICTURE = 12, 28
SMALL_PICTURE = 12
WRONG = "Misleading: ever guarded against never guarded"
WRONG_NAME = "misleading tally"
WHY_WRONG = (
    "It counts the games before a guard came as guarded ones; a site must stay uninjured until "
    "then to get into that curve, so it seems safe while it waits. Not to be quoted."
)
ROOMY = Paper(96, 28)
"""Paper of this size and more gets a second picture."""


def games_page(
    answer: "GamesAnswer", paper: Paper, *, is_same_mix: bool = False
) -> Sequence[Block]:
    """Return question, answer, options, curves, numbers, ticks, and what to keep in mind.

    With `is_same_mix` the curves are those at one mix of athletes, where there are any.
    """
    is_mixed = is_same_mix and not answer.one_mix.why
    summary = answer.summary
    opening = page_parts.opening(summary, paper, "restricted mean", INJURIES)
    options = Block(options_lines(answer, paper, is_mixed=is_mixed))
    used = sum(len(block.lines) for block in (*opening, options))
    height = min(MOST_PICTURE, max(LEAST_PICTURE, paper.height - used))
    picture = survival_picture(answer, replace(paper, height=height), is_same_mix=is_mixed)
    curves = Block(tuple(picture), "curves", "one mix" if is_mixed else "curve", INJURIES)
    sections = (
        partial(_at_risk, answer),
        partial(follow_up_ends, answer),
        partial(_ticks, answer),
        partial(endings, answer),
        partial(_per_game, answer),
        partial(page_parts.doubts, summary),
        *page_parts.ends(summary, "left out", caveats_card="curve"),
    )
    across = [*pictured([curves]), *_misleading(answer, paper), *numbers(answer, paper)]
    return [*opening, options, *across, *in_columns(sections, paper)]


def options_lines(
    answer: "GamesAnswer", paper: Paper, *, is_mixed: bool = False
) -> tuple[Text, ...]:
    """Return how it was asked, each with the key that changes it."""
    options = answer.options
    horizon = "none yet" if answer.horizon is None else str(answer.horizon)
    if options.horizon is None and answer.horizon is not None and paper.width >= ROOMY.width:
        horizon += " (four in five play no more)"
    summary = (
        ("k", "clock", options.clock.value.replace("-", " ")),
        ("n", "at risk", f"{words.whole(options.min_at_risk)}+"),
        ("h", "horizon", horizon),
        ("a", "same mix" if is_mixed else "as played", ""),
        ("w", "wrong tally", "shown" if options.naive else "off"),
    )
    lines = [Text(" ", style=paper.ink.quiet)]
    for key, name, value in summary:
        part = Text.assemble((key, "bold"), f" {name} {value}".rstrip())
        has_text = lines[-1].cell_len > 1
        if has_text and lines[-1].cell_len + part.cell_len + 3 > paper.width:
            lines.append(Text(" ", style=paper.ink.quiet))
        elif has_text:
            lines[-1].append(" · ")
        lines[-1].append_text(part)
    return tuple(lines)


def _misleading(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return the misleading tally, called that and told why, when it was asked for."""
    if answer.ever_never is None:
        return []
    lines = (
        *title(WRONG, paper).lines,
        *note(WHY_WRONG, paper),
        *misleading_picture(answer, replace(paper, height=SMALL_PICTURE)),
    )
    return [Block(lines, WRONG_NAME, "ever never", INJURIES)]


def _at_risk(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return the course of the numbers at risk, where there is room for a second picture."""
    if paper.width < ROOMY.width or paper.height < ROOMY.height:
        return []
    lines = at_risk_trend(answer, paper)
    return [GAP, Block(tuple(lines), "at risk", "curve", INJURIES)] if lines else []


def _per_game(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return how many plays and minutes a game holds, on the clocks that count them."""
    words_of = {"sport": 10, "sex": 5, "position_group": 14}
    heads = [
        column(one, words_of.get(one.name, 7), answer, grows=one.name == "position_group")
        for one in PER_GAME.read_fields(answer)
    ]
    rows = answer.per_game or ()
    blocks = table_blocks(heads, rows, paper, lambda row: (f"per game {row}", "per game", INJURIES))
    return [title("What an athlete's game holds", paper), *blocks] if blocks else []


def _ticks(answer: "GamesAnswer", paper: Paper) -> list[Block]:
    """Return the ticks of both curves, side by side."""
    clock, is_fine = clock_word(answer), answer.options.clock.is_fine
    heads = [
        column(TICKS.field("tick"), 5, heading=clock),
        *(
            column(TICKS.field(f"{side}.{name}"), width, heading="at risk" if width == 7 else None)
            for side in ("guarded", "bare")
            for name, width in _COLUMNS.items()
        ),
    ]

    def in_colours(text: Text) -> Text:
        text.stylize(paper.ink.group(guarded=True), _GUARDED, _BARE)
        text.stylize(paper.ink.group(guarded=False), _BARE)
        return text

    groups = Text(right("── guarded", _BARE) + right("── bare", _BARE - _GUARDED))
    table = table_blocks(
        heads,
        (TICKS_WITH_INJURY if is_fine else TICKS).rows(answer) or (),
        paper,
        lambda row: (f"tick {row.tick}", "curve", Opens(What.TICK, row.tick)),
        above=(in_colours(groups), heading(heads, paper)),
        lines=lambda _, line: (in_colours(line),),
    )
    only = " with an injury" if is_fine else ""
    return (
        [title(f"{clock.capitalize()} by {clock}{only}, as played", paper), *table] if table else []
    )
