"""What injuries cost the guarded and the bare, as a table of the Compare page."""

from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers.compare.burden import GroupBurden, tally_words
from seasonboard.answers.compare.burden_report import BURDEN, burden_notes, ratio_words
from seasonboard.ui.layout.blocks import Block, Opens, Paper, What, note, title
from seasonboard.ui.layout.tables import columns, table_blocks

if TYPE_CHECKING:
    from seasonboard.answers.compare.parts import CompareAnswer

_WIDTHS = {"group": 9, "injuries": 9, "days": 15, "days_per_1000": 9, "interval": 15}
_OPENS = Opens(What.TABLE, BURDEN.name)
_CARD = "burden"


def burden_blocks(answer: "CompareAnswer", paper: Paper) -> list[Block]:
    """Return days lost by group, with severity, onset and contact under each, and the ratio."""
    burden = answer.burden

    def lines(group: GroupBurden, line: Text) -> list[Text]:
        line.stylize(paper.ink.group(guarded=group.name == "guarded"))
        return [line, *(one for text in burden_notes(group) for one in note(text, paper, "   "))]

    if not any(group.severity.injuries or group.set_aside for group in burden.groups):
        return []
    blocks = table_blocks(
        columns(BURDEN, answer, **_WIDTHS), burden.groups, paper,
        lambda group: (f"burden {group.name}", _CARD, _OPENS), lines=lines, stays=False,
    )  # fmt: skip
    words = [ratio_words(burden.ratio)]
    if burden.unplaced:
        words.append(f"Set aside, not known whether guarded: {tally_words(burden.unplaced)}.")
    last = tuple(one for text in words for one in note(text, paper))
    return [title("What injuries cost", paper), *blocks, Block(last, "burden", _CARD, _OPENS)]
