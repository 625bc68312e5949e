"""The page of the Pitch screen, drawn from its answer."""

from collections.abc import Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING

from seasonboard.answers import words
from seasonboard.answers.claims.parts import GAMES, HURT, READY, REMADE, TURNAROUND, WORN, Claim
from seasonboard.answers.pitch.figures import known_figures
from seasonboard.answers.pitch.lines import effect_lines, published_sources
from seasonboard.answers.pitch.parts import Basis
from seasonboard.answers.pitch.tables import TEAMS
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import (
    INJURIES,
    Block,
    Opens,
    Paper,
    What,
    item,
    note,
    pictured,
    title,
)
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.tables import column, columns, table_blocks
from seasonboard.ui.pitch.large_figures import said_blocks
from seasonboard.ui.pitch.plan import figure_table, inputs, plans, prints, swings

if TYPE_CHECKING:
    from seasonboard.answers.pitch.parts import PitchAnswer, TeamAhead

_AHEAD = "pitch/season ahead"
_EFFECT: Mapping[str, tuple[str, Opens]] = {
    "ratio": ("pitch/effect", Opens(What.ATHLETES)),
    "guarded": ("pitch/guarded share", Opens(What.STEPS)),
    "visible": ("pitch/visible", INJURIES),
}
"""Of each line of the effect its method card, and the rows it was counted from."""
_CLAIMS: Mapping[str, Opens] = {
    HURT: INJURIES,
    GAMES: INJURIES,
    READY: Opens(What.ORDERS),
    TURNAROUND: Opens(What.ORDERS),
    REMADE: Opens(What.REMADE),
    WORN: Opens(What.STEPS),
}
"""Of each claim the rows it was counted from."""
_PROSPECT = Opens(What.PROSPECT)


def pitch_page(answer: "PitchAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, plans, what they rest on, claims, and what to keep in mind."""
    summary = answer.summary
    sections: tuple[Section, ...] = (
        *(partial(draw, answer) for draw in _SECTIONS),
        *page_parts.ends(summary, "pitch/baseline", _PROSPECT, caveats_card=_AHEAD),
    )
    said = pictured(said_blocks(answer, paper))
    return [*page_parts.question(summary.question, paper), *said, *in_columns(sections, paper)]


def _season(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return the figures of the season, and the effect."""
    figures = known_figures(answer, "season")
    table = figure_table(figures, paper, card=_AHEAD, opens=INJURIES)
    blocks = [title("In one season", paper), *table] if table else []
    blocks.append(title("The effect", paper))
    for label, text in effect_lines(answer):
        blocks.append(Block(item(f"{label:<8}", text, paper), f"effect {label}", *_EFFECT[label]))
    return blocks


def _teams(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    whose = "of the prospect" if answer.is_given else "like those served"
    heads = (
        column(TEAMS.field("team"), 20, grows=True, most=30),
        *columns(TEAMS, athletes=8, games=5, practices=9, injuries=8, games_missed=6),
        column(TEAMS.field("rests_on"), 14, grows=True, most=44),
    )

    def stop(team: "TeamAhead") -> tuple[str, str, Opens]:
        number, basis = str(answer.teams.index(team)), team.baseline.basis
        is_recorded = basis in {Basis.SPORT, Basis.SERVED}
        opens = Opens(What.TEAM, number) if is_recorded or not answer.is_given else _PROSPECT
        return f"team {team.name}", "pitch/baseline", opens

    text = f"{words.plural(len(answer.teams), 'team')} {whose}; injuries and games missed on "
    text += "average, without guards. t changes the teams."
    published = (
        Block(item("published", source, paper), f"published {number}", "pitch/baseline")
        for number, source in enumerate(published_sources(answer.teams))
    )
    about = Block(note(text, paper), "teams", "pitch/prospect", _PROSPECT)
    table = table_blocks(heads, answer.teams, paper, stop)
    return [title("Teams", paper), about, *table, *published]


def _claims(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return the sentences that may be said, then those that may not, with what they lack."""
    may = [_claim("+", claim, paper) for claim in answer.claims if claim.is_supported]
    may_not = [_claim("–", claim, paper) for claim in answer.claims if not claim.is_supported]
    blocks = [title("May be said", paper), *(may or [Block(item(" ", "nothing yet", paper))])]
    return [*blocks, title("May not be said yet", paper), *may_not] if may_not else blocks


def _claim(mark: str, claim: Claim, paper: Paper) -> Block:
    text = claim.sentence + (f" Missing: {claim.missing}." if claim.missing else "")
    if claim.is_supported and not claim.is_for_outsiders:
        text += " Not for outsiders: a count of 1 to 10 stands in it."
    opens = _CLAIMS.get(claim.topic)
    return Block(item(mark, text, paper), f"claim {claim.topic}", "claims", opens)


_SECTIONS = (plans, _season, _teams, prints, swings, inputs, _claims)
