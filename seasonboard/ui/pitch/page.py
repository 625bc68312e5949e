"""The page of the Pitch screen, drawn from its answer."""

from collections.abc import Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING

from seasonboard.answers import words
from seasonboard.answers.pitch.figures import known_figures
from seasonboard.answers.pitch.lines import effect_lines, published_sources
from seasonboard.answers.pitch.parts import Basis
from seasonboard.answers.pitch.tables import TEAMS
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import Block, Paper, item, paragraph, pictured, title
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.opens import INJURIES, Opens, What
from seasonboard.ui.layout.tables import column, table_blocks
from seasonboard.ui.pitch.claims import claims
from seasonboard.ui.pitch.plan import PRINTS_CARD, figure_table, inputs, prints, swings
from seasonboard.ui.pitch.season_ranges import KEY, range_lines

if TYPE_CHECKING:
    from seasonboard.answers.pitch.parts import PitchAnswer, TeamAhead

_AHEAD = "pitch/season ahead"
_KEPT = {"games_kept": "games kept", "days_kept": "days kept", "averted": "injuries averted"}
_EXPECTED = {"injuries": "injuries", "games_missed": "games missed", "days_lost": "days lost"}
_PRINTED = {"all": "prints", "busiest_week": "in busiest week", "hours": "printer hours"}
_EFFECT: Mapping[str, tuple[str, Opens]] = {
    "ratio": ("pitch/effect", Opens(What.ATHLETES)),
    "guarded": ("pitch/guarded share", Opens(What.STEPS)),
    "visible": ("pitch/visible", INJURIES),
}
"""Of each line of the effect its method card, and the rows it was counted from."""


def pitch_page(answer: "PitchAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, ranges, what they rest on, claims, and what to keep in mind."""
    summary = answer.summary
    sections: tuple[Section, ...] = (
        partial(_season, answer),
        partial(_teams, answer),
        partial(prints, answer),
        partial(swings, answer),
        partial(inputs, answer),
        partial(claims, answer),
        lambda half: page_parts.left_out(
            summary, half, card="pitch/baseline", opens=Opens(What.PROSPECT)
        ),
        lambda half: page_parts.caveats(summary, half, card=_AHEAD),
    )
    opening = page_parts.opening(summary, paper, card=_AHEAD, opens=INJURIES)
    return [*opening, *pictured(_ranges(answer, paper)), *in_columns(sections, paper)]


def _drawn(answer: "PitchAnswer") -> Mapping[str, str]:
    """Return the figures of the season that the picture shows, and how it calls them."""
    known = {figure.name for figure in known_figures(answer, "season")}
    if known >= _KEPT.keys():
        return _KEPT
    return {name: brief for name, brief in _EXPECTED.items() if name in known}


def _ranges(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return what would be kept; else what happens without guards; else what is to be printed."""
    drawn = _drawn(answer)
    text, ends = "Without guards", ("", "")
    if drawn == _KEPT:
        text, ends = "With guards instead of without", ("lost", "kept")
    part, card, opens = "season", _AHEAD, INJURIES
    if not drawn:
        drawn, text, part, card, opens = (
            _PRINTED,
            "Prints",
            "prints",
            PRINTS_CARD,
            Opens(What.ORDERS),
        )
    spreads = {figure.name: figure.spread for figure in known_figures(answer, part)}
    named = [(brief, spreads[name]) for name, brief in drawn.items() if name in spreads]
    head, *lines = range_lines(named, paper, ends=ends)
    rows = [
        Block((line,), name=f"range {name}", card=card, opens=opens)
        for (name, _), line in zip(named, lines, strict=True)
    ]
    key = Block(paragraph(KEY, paper.width, paper.ink.quiet))
    return [title(f"{text}, in one season", paper), Block((head,)), *rows, key]


def _season(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return the figures of the season that the picture does not show, and the effect."""
    drawn = _drawn(answer)
    figures = [one for one in known_figures(answer, "season") if one.name not in drawn]
    table = figure_table(figures, paper, card=_AHEAD, opens=INJURIES)
    effect = [
        Block(
            item(f"{label:<8}", text, paper),
            name=f"effect {label}",
            card=_EFFECT[label][0],
            opens=_EFFECT[label][1],
        )
        for label, text in effect_lines(answer)
    ]
    heading = [title("In one season", paper)] if table else []
    return [*heading, *table, title("The effect", paper), *effect]


def _teams(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    whose = "of the prospect" if answer.is_given else "like those served"
    heads = (
        column(TEAMS.field("team"), 20, grows=True, most=30),
        column(TEAMS.field("athletes"), 8),
        column(TEAMS.field("games"), 5),
        column(TEAMS.field("practices"), 9),
        column(TEAMS.field("injuries"), 8),
        column(TEAMS.field("games_missed"), 6),
        column(TEAMS.field("rests_on"), 14, grows=True, most=44),
    )

    def block(team: "TeamAhead") -> tuple[str, str, Opens]:
        number = answer.teams.index(team)
        opens = (
            Opens(What.TEAM, str(number)) if _is_recorded(team, answer) else Opens(What.PROSPECT)
        )
        return f"team {team.name}", "pitch/baseline", opens

    text = f"{words.plural(len(answer.teams), 'team')} {whose}; injuries and games missed on "
    text += "average, without guards. t changes the teams."
    about = Block(
        paragraph(text, paper.width, paper.ink.quiet),
        name="teams",
        card="pitch/prospect",
        opens=Opens(What.PROSPECT),
    )
    published = (
        Block(item("published", source, paper), name=f"published {number}", card="pitch/baseline")
        for number, source in enumerate(published_sources(answer.teams))
    )
    table = table_blocks(heads, answer.teams, paper, block)
    return [title("Teams", paper), about, *table, *published]


def _is_recorded(team: "TeamAhead", answer: "PitchAnswer") -> bool:
    """Say whether teams of this sport and sex stand in the store."""
    own = {Basis.OWN, Basis.OWN_BOTH}
    return not answer.is_given or any(one.baseline.basis in own for one in team.settings)
