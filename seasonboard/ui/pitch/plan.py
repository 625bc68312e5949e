"""The plan behind a pitch as parts of a page: prints, turnaround, cost, swings and inputs."""

from collections.abc import Mapping, Sequence
from operator import itemgetter
from typing import TYPE_CHECKING

from seasonboard.answers.pitch.figures import PRINTS, known_figures
from seasonboard.answers.pitch.inputs import (
    GUARDS_EACH,
    LATER,
    PRINT_HOURS,
    REMADE,
    SEASON,
    TAKES,
    WORN_IN,
)
from seasonboard.answers.pitch.lines import side_by_side
from seasonboard.answers.pitch.tables import SWINGS
from seasonboard.answers.pitch.words import input_words
from seasonboard.ui.layout.blocks import INJURIES, Block, Opens, Paper, What, item, paragraph, title
from seasonboard.ui.layout.tables import Head, column, columns, table_blocks

if TYPE_CHECKING:
    from seasonboard.answers.pitch.figures import Figure
    from seasonboard.answers.pitch.parts import PitchAnswer, Swing

PRINTS_CARD = "pitch/prints ahead"
_INPUTS: Mapping[str, tuple[str, Opens]] = {
    TAKES: ("pitch/guarded share", Opens(What.STEPS)),
    WORN_IN: ("pitch/guarded share", Opens(What.STEPS)),
    GUARDS_EACH: ("pitch/prints an athlete", Opens(What.ORDERS)),
    REMADE: (PRINTS_CARD, Opens(What.REMADE)),
    LATER: (PRINTS_CARD, Opens(What.REMADE)),
    PRINT_HOURS: ("pitch/prints an athlete", Opens(What.ORDERS)),
    SEASON: ("pitch/prospect", Opens(What.PROSPECT)),
}
"""Of each input its method card, and the rows it was counted from."""


def figure_table(
    figures: "Sequence[Figure]", paper: Paper, *, card: str, opens: Opens
) -> list[Block]:
    """Return figures with their median and ranges as a table; nothing where there are none."""
    heads = (
        column(PRINTS.field("words"), 31, grows=True, heading=""),
        *columns(PRINTS, median=7, range_80=15, range_95=15),
    )
    return table_blocks(heads, figures, paper, lambda one: (f"figure {one.words}", card, opens))


def prints(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return how many prints it takes."""
    figures, orders = known_figures(answer, "prints"), Opens(What.ORDERS)
    return [title("Prints", paper), *figure_table(figures, paper, card=PRINTS_CARD, opens=orders)]


def plans(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return the two plans side by side, then which is recommended."""
    room = max(20, (paper.width - 29) // 2)
    heads = (
        Head("", 26, cell=itemgetter(0)),
        *(
            Head(plan.way.words, room, wraps=True, cell=itemgetter(number))
            for number, plan in enumerate(answer.plans, start=1)
        ),
    )

    def stop(row: tuple[str, str, str]) -> tuple[str, str, Opens]:
        card = "pitch/cost" if row[0] in {"fees", "total of the season"} else PRINTS_CARD
        return f"plans {row[0]}", card, Opens(What.ORDERS)

    table = table_blocks(heads, side_by_side(answer), paper, stop)
    choice = Block(paragraph(answer.choice.why, paper.width), "recommended", PRINTS_CARD)
    return [title("The two plans (i changes them)", paper), *table, choice]


def swings(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return which input would change the games kept most, and by how much."""
    card = "pitch/sensitivity"
    heads = (
        column(SWINGS.field("input"), 19, grows=True),
        *columns(SWINGS, low=8, high=8, kept_at_low=17, kept_at_high=8),
    )

    def stop(swing: "Swing") -> tuple[str, str, Opens]:
        return f"swing {swing.input}", card, _INPUTS.get(swing.input, ("", INJURIES))[1]

    return [
        title("What would change it most", paper),
        Block(paragraph(answer.swing_sentence, paper.width), "swing", card, INJURIES),
        *table_blocks(heads, answer.swings, paper, stop),
    ]


def inputs(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return what the plan rests on, and where each of it is from."""
    blocks = [title("What the plan rests on (i changes it)", paper)]
    for one in answer.inputs:
        stop = _INPUTS.get(one.name, ("pitch/prospect", Opens(What.PROSPECT)))
        lines = item(f"{one.name:<21}", f"{input_words(one)}; {one.why or one.source}", paper)
        blocks.append(Block(lines, f"input {one.name}", *stop))
    return blocks
