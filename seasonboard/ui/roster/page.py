"""The page of the Roster screen, drawn from its answer."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.roster.words import STRIP_KEY, state_word
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, item, paragraph, pictured, title
from seasonboard.ui.layout.columns import WIDE, Section, in_columns
from seasonboard.ui.layout.tables import Head, heading, line
from seasonboard.ui.pictures.marks import strip

if TYPE_CHECKING:
    from seasonboard.answers.roster.parts import NextGame, RosterAnswer, RosterAthlete, RosterGuard

_HEADS = (
    Head("athlete", 17, grows=True, most=24),
    Head("position", 12, least=112),
    Head("last sessions", 13),
    Head("state", 27, grows=True, most=38),
    Head("guard", 18, grows=True, most=70),
)


def roster_page(answer: "RosterAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, next games, one line an athlete, availability, caveats."""
    summary = answer.summary
    ends: tuple[Section, ...] = (
        lambda half: _games(answer, half),
        lambda half: _availability(answer, half),
        lambda half: page_parts.left_out(summary, half, card="roster/state", opens="roster"),
        lambda half: page_parts.caveats(summary, half, card="roster/state"),
    )
    opening = page_parts.opening(summary, paper, card="roster/state", opens="roster")
    if paper.width < WIDE:
        below = (part(paper) for part in ends)
        return [
            *(*opening, *_called(answer, paper), GAP, *_table(answer, paper)),
            *(block for blocks in below for block in blocks),
        ]
    sections: tuple[Section, ...] = (partial(_table, answer), partial(_called, answer), *ends)
    return [*opening, GAP, *in_columns(sections, paper, on_the_left=1, left_share=0.62)]


def _table(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    """Return one line an athlete, with the key of the strips below."""
    if not answer.athletes:
        return []
    head = heading(_HEADS, paper)
    return pictured(
        [
            Block((head,)),
            *(_athlete(athlete, head, paper) for athlete in answer.athletes),
            Block(paragraph(STRIP_KEY, paper.width, paper.ink.quiet)),
        ]
    )


def _athletes(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    if not answer.athletes:
        return []
    head = heading(_HEADS, paper)
    lines = [_athlete(athlete, head, paper) for athlete in answer.athletes]
    return [Block((head,)), *lines, Block(paragraph(STRIP_KEY, paper.width, paper.ink.quiet))]


def _called(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    """Name those whom the three questions of a roster are about; the rest is only counted."""
    out = [a for a in answer.athletes if a.status.value in {"out", "limited"}]
    lists = (
        ("Out or limited", [(a, f"{a.name} ({state_word(a)})") for a in out]),
        ("Guard late", _with_guard(answer, lambda guard: guard.is_late)),
        ("Has one, does not wear it", _with_guard(answer, lambda guard: guard.state == "unworn")),
    )
    most = max(3, paper.height // 5)
    blocks = [GAP]
    for heading_, named in lists:
        told = "; ".join(text for _, text in named[:most]) or "nobody"
        more = len(named) - most
        told += f"; and {more} more" if more > 0 else ""
        lines = item(f"{heading_}:", told, paper)
        blocks.append(Block(lines, name=heading_, card="roster/state", opens="roster"))
    return blocks


def _with_guard(
    answer: "RosterAnswer", holds: "Callable[[RosterGuard], bool]"
) -> list[tuple["RosterAthlete", str]]:
    return [
        (athlete, f"{athlete.name} ({guard_words(guard)})")
        for athlete in answer.athletes
        for guard in athlete.guards
        if holds(guard)
    ]


def _games(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    """Say each team's next game, where the answer is about several teams."""
    games = [game for game in answer.next_games if game.is_listed]
    if len(games) < 2:
        return []
    blocks = [title("Next games", paper)]
    blocks += [
        Block(
            item(game.team_name, game_words(game), paper),
            name=f"game {game.team} {game.season}",
            card="roster/state",
            opens="roster",
        )
        for game in games
    ]
    return blocks


def game_words(game: "NextGame") -> str:
    """Return when and what a team plays next, or why that is not known."""
    if game.starts_at is None:
        return game.why
    at = game.starts_at
    when = f"{at:%a} {at.day} {at:%b}, {at:%H:%M}"
    return f"{when}, {game.label}" if game.label else when


def _athlete(athlete: "RosterAthlete", head: Text, paper: Paper) -> Block:
    cells = (
        athlete.name,
        athlete.position or "–",
        strip(athlete.strip, paper.ink),
        state_word(athlete),
        "; ".join(map(guard_words, athlete.guards)) or "none",
    )
    return Block(
        (line(_HEADS, cells, paper),),
        name=f"athlete {athlete.athlete} {athlete.team} {athlete.season}",
        card="roster/guards" if athlete.guards else "roster/state",
        opens=f"athlete:{athlete.athlete}",
        heading=head,
    )


def guard_words(guard: "RosterGuard") -> str:
    """Return one guard in few words: what it is, and how it stands with it."""
    name = guard.kind if guard.side == "midline" else f"{guard.kind} {guard.side}"
    worn = f" {guard.worn}/{guard.taken_part}" if guard.taken_part and guard.is_in_hand else ""
    state = "" if worn and guard.state.value == "in hand" else f" {guard.state.value}"
    return f"{name}{state}{worn}"


def _availability(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    found = answer.availability
    blocks = [title("Availability", paper)]
    for setting, name in (("all", "sessions"), ("game", "games")):
        total = found.total(setting)
        share = total.why if total.share is None else f"{words.percent(total.share)} available"
        told = f"{share} ({total.available:,} of {total.recorded:,} athletes' {name} recorded"
        missing = f", {total.not_recorded:,} not recorded)" if total.not_recorded else ")"
        blocks.append(
            Block(
                item(name, told + missing, paper),
                name=f"availability {setting}",
                card="roster/availability",
                opens="availability",
            )
        )
    days = f"{found.unavailable_days:,} of {found.roster_days:,} roster days lost to injury"
    blocks.append(
        Block(
            item("days", days, paper), name="days lost", card="roster/days lost", opens="injuries"
        )
    )
    return blocks
