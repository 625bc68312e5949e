"""The page of the Pitch screen, drawn from its answer."""

from collections.abc import Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.pitch.parts import Basis
from seasonboard.answers.pitch.text import print_figures, rests_on, season_figures
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import Block, Paper, item, paragraph, pictured, title
from seasonboard.ui.layout.columns import Section, in_columns
from seasonboard.ui.layout.tables import Head, heading, line
from seasonboard.ui.pitch.claims import claims
from seasonboard.ui.pitch.plan import PRINTS, cost, inputs, prints, spreads, swings
from seasonboard.ui.pitch.season_ranges import KEY, Named, promise

if TYPE_CHECKING:
    from seasonboard.answers.pitch.parts import PitchAnswer, TeamAhead
    from seasonboard.stats.season_ahead import Spread

_AHEAD = "pitch/season ahead"
_PROMISED: Mapping[str, str] = {
    name: name for name in ("games kept", "days kept", "injuries averted")
}
_EXPECTED: Mapping[str, str] = {
    "injuries without guards": "injuries",
    "games missed without guards": "games missed",
    "days lost in the season without": "days lost",
}
_PRINTED: Mapping[str, str] = {
    "all prints": "prints",
    "prints in the busiest week": "in busiest week",
    "printer hours": "printer hours",
}


def pitch_page(answer: "PitchAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, ranges, what they rest on, claims, and what to keep in mind."""
    summary = answer.summary
    sections: tuple[Section, ...] = (
        partial(_season, answer),
        partial(_teams, answer),
        partial(prints, answer),
        partial(cost, answer),
        partial(swings, answer),
        partial(inputs, answer),
        partial(claims, answer),
        lambda half: page_parts.left_out(summary, half, card="pitch/baseline", opens="prospect"),
        lambda half: page_parts.caveats(summary, half, card=_AHEAD),
    )
    opening = page_parts.opening(summary, paper, card=_AHEAD, opens="injuries")
    return [*opening, *pictured(_promise(answer, paper)), *in_columns(sections, paper)]


def _promise(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return what would be kept; else what happens without guards; else what is to be printed."""
    drawn = _drawn(answer)
    if not drawn:
        found = {name: spread for name, spread in print_figures(answer) if spread is not None}
        shown = [(brief, found[name]) for name, brief in _PRINTED.items() if name in found]
        return _ranges("Prints", shown, paper, card=PRINTS, opens="orders")
    found = {name: spread for name, spread in season_figures(answer) if spread is not None}
    shown = [(brief, found[name]) for name, brief in drawn.items()]
    is_kept = drawn == _PROMISED
    told = "With guards instead of without" if is_kept else "Without guards"
    ends = ("lost", "kept") if is_kept else ("", "")
    return _ranges(told, shown, paper, card=_AHEAD, opens="injuries", ends=ends)


def _ranges(  # noqa: PLR0913 - each by its name
    told: str,
    shown: Sequence[Named],
    paper: Paper,
    *,
    card: str,
    opens: str,
    ends: tuple[str, str] = ("", ""),
) -> list[Block]:
    head, *lines = promise(shown, paper, ends=ends)
    rows = [
        Block((text,), name=f"range {name}", card=card, opens=opens)
        for (name, _), text in zip(shown, lines, strict=True)
    ]
    key = Block(paragraph(KEY, paper.width, paper.ink.quiet))
    return [title(f"{told}, in one season", paper), Block((head,)), *rows, key]


def _drawn(answer: "PitchAnswer") -> Mapping[str, str]:
    """Return the figures of the season that the picture shows, and how it calls them."""
    found = {name for name, spread in season_figures(answer) if spread is not None}
    if found >= set(_PROMISED):
        return _PROMISED
    return {name: brief for name, brief in _EXPECTED.items() if name in found}


def _season(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return the figures of the season that the picture does not show, and the effect."""
    drawn = _drawn(answer)
    figures: list[tuple[str, Spread]] = [
        (name, spread)
        for name, spread in season_figures(answer)
        if spread is not None and name not in drawn
    ]
    return [
        *spreads("In one season", figures, paper, card=_AHEAD, opens="injuries"),
        title("The effect", paper),
        *_effect(answer, paper),
    ]


def _effect(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    effect, ahead = answer.effect, answer.ahead
    ratio = f"not shown yet: {effect.why}"
    if effect.ratio is not None:
        limits = words.ratio_interval(effect.low, effect.high)
        level = words.level_words(answer.summary.scope)
        ratio = (
            f"{words.ratio(effect.ratio)} times as often hurt in the same sessions ({level}: "
            f"{limits}, {effect.limits.value.replace('-', ' ')}); {effect.injuries_guarded} "
            f"guarded and {effect.injuries_unguarded} bare injuries"
        )
    told = [
        ("ratio", "pitch/effect", "athletes", ratio),
        (
            "guarded",
            "pitch/guarded share",
            "steps",
            f"{words.percent(answer.guarded_share)} of exposures: athletes with a guard × the "
            "season left once it is fitted × sessions worn",
        ),
    ]
    if ahead is not None and ahead.visible is not None:
        seen = ahead.visible
        visible = (
            f"{words.percent(seen.chance)} of seasons there would show a difference: fewer "
            f"injuries with guards {words.percent(seen.fewer)}, more {words.percent(seen.more)}"
        )
        told.append(("visible", "pitch/visible", "injuries", visible))
    return [
        Block(item(f"{name:<8}", text, paper), name=f"effect {name}", card=card, opens=opens)
        for name, card, opens, text in told
    ]


def _teams(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    whose = "of the prospect" if answer.is_given else "like those served"
    heads = (
        Head("team", 20, grows=True, most=30),
        Head("athletes", 8, is_number=True),
        Head("games", 5, is_number=True),
        Head("practices", 9, is_number=True),
        Head("injuries", 8, is_number=True),
        Head("missed", 6, is_number=True),
        Head("rests on", 14, grows=True, most=44),
    )
    head = heading(heads, paper)
    rows = [
        Block(
            (line(heads, _team(team), paper),),
            name=f"team {team.name}",
            card="pitch/baseline",
            opens=f"team:{number}" if _is_recorded(team, answer) else "prospect",
            heading=head,
        )
        for number, team in enumerate(answer.teams)
    ]
    told = f"{words.plural(len(answer.teams), 'team')} {whose}; injuries and games missed on "
    told += "average, without guards. t changes the teams."
    about = Block(
        paragraph(told, paper.width, paper.ink.quiet),
        name="teams",
        card="pitch/prospect",
        opens="prospect",
    )
    shown = [Block((head,)), *rows] if rows else []
    return [title("Teams", paper), about, *shown, *_published(answer, paper)]


def _published(answer: "PitchAnswer", paper: Paper) -> list[Block]:
    """Return the sources of published rates that teams rest on."""
    found = dict.fromkeys(
        f"{team.name}, {each.baseline.source}"
        for team in answer.teams
        for each in team.settings
        if each.baseline.basis is Basis.PUBLISHED
    )
    return [
        Block(item("published", text, paper), name=f"published {number}", card="pitch/baseline")
        for number, text in enumerate(found)
    ]


def _is_recorded(team: "TeamAhead", answer: "PitchAnswer") -> bool:
    """Say whether teams of this sport and sex stand in the store."""
    own = {Basis.OWN, Basis.OWN_BOTH}
    return not answer.is_given or any(each.baseline.basis in own for each in team.settings)


def _team(team: "TeamAhead") -> tuple[str | Text, ...]:
    injuries, missed = (
        "–" if value is None else words.number(value, digits=1)
        for value in (team.injuries, team.games_missed)
    )
    return (
        team.name,
        words.whole(team.athletes),
        words.whole(team.team.games),
        words.whole(team.team.practices),
        injuries,
        missed,
        rests_on(team),
    )
