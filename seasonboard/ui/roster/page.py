"""The page of the Roster screen, drawn from its answer."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.roster.athletes_table import ATHLETES
from seasonboard.answers.roster.words import STRIP_KEY, game_words, short_guard_words, state_word
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import GAP, Block, Paper, item, paragraph, pictured, title
from seasonboard.ui.layout.columns import WIDE, Section, in_columns
from seasonboard.ui.layout.opens import Opens, What
from seasonboard.ui.layout.tables import Head, column, heading, row_line
from seasonboard.ui.pictures.marks import strip

if TYPE_CHECKING:
    from seasonboard.answers.roster.parts import RosterAnswer, RosterAthlete, RosterGuard


def _heads(paper: Paper) -> tuple[Head, ...]:
    return (
        column(ATHLETES.field("name"), 17, heading="athlete", grows=True, most=24),
        column(ATHLETES.field("position"), 12, least=112),
        Head("last sessions", 13, cell=lambda athlete: strip(athlete.strip, paper.ink)),
        column(ATHLETES.field("state"), 27, grows=True, most=38),
        Head("guard", 18, grows=True, most=70, cell=_guards),
    )


def _guards(athlete: "RosterAthlete") -> str:
    return "; ".join(map(short_guard_words, athlete.guards)) or "none"


def roster_page(answer: "RosterAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, next games, one line an athlete, availability, caveats."""
    summary = answer.summary
    ends: tuple[Section, ...] = (
        lambda half: _games(answer, half),
        lambda half: _availability(answer, half),
        lambda half: page_parts.left_out(
            summary, half, card="roster/state", opens=Opens(What.ROSTER)
        ),
        lambda half: page_parts.caveats(summary, half, card="roster/state"),
    )
    opening = page_parts.opening(summary, paper, card="roster/state", opens=Opens(What.ROSTER))
    if paper.width < WIDE:
        below = (part(paper) for part in ends)
        return [
            *(*opening, *_attention(answer, paper), GAP, *_table(answer, paper)),
            *(block for blocks in below for block in blocks),
        ]
    sections: tuple[Section, ...] = (partial(_table, answer), partial(_attention, answer), *ends)
    return [*opening, GAP, *in_columns(sections, paper, on_the_left=1, left_share=0.62)]


def _table(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    """Return one line an athlete, with the key of the strips below."""
    if not answer.athletes:
        return []
    heads = _heads(paper)
    head = heading(heads, paper)
    lines = ((athlete, row_line(heads, athlete, paper)) for athlete in answer.athletes)
    return pictured(
        [
            Block((head,)),
            *(_athlete(athlete, line, head) for athlete, line in lines),
            Block(paragraph(STRIP_KEY, paper.width, paper.ink.quiet)),
        ]
    )


def _attention(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    """Name those whom the three questions of a roster are about; the rest is only counted."""
    out = [a for a in answer.athletes if a.status.value in {"out", "limited"}]
    lists = (
        ("Out or limited", [f"{a.name} ({state_word(a)})" for a in out]),
        ("Guard late", _with_guard(answer, lambda guard: guard.is_late)),
        ("Has one, does not wear it", _with_guard(answer, lambda guard: guard.state == "unworn")),
    )
    most = max(3, paper.height // 5)
    blocks = [GAP]
    for name, names in lists:
        text = "; ".join(names[:most]) or "nobody"
        more = len(names) - most
        text += f"; and {more} more" if more > 0 else ""
        lines = item(f"{name}:", text, paper)
        blocks.append(Block(lines, name=name, card="roster/state", opens=Opens(What.ROSTER)))
    return blocks


def _with_guard(answer: "RosterAnswer", holds: "Callable[[RosterGuard], bool]") -> list[str]:
    return [
        f"{athlete.name} ({short_guard_words(guard)})"
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
            opens=Opens(What.ROSTER),
        )
        for game in games
    ]
    return blocks


def _athlete(athlete: "RosterAthlete", line: Text, head: Text) -> Block:
    return Block(
        (line,),
        name=f"athlete {athlete.athlete} {athlete.team} {athlete.season}",
        card="roster/guards" if athlete.guards else "roster/state",
        opens=Opens(What.ATHLETE, athlete.athlete),
        heading=head,
    )


def _availability(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    availability = answer.availability
    blocks = [title("Availability", paper)]
    for setting, name in (("all", "sessions"), ("game", "games")):
        total = availability.total(setting)
        share = total.why if total.share is None else f"{words.percent(total.share)} available"
        counted = f"{share} ({total.available:,} of {total.recorded:,} athletes' {name} recorded"
        missing = f", {total.not_recorded:,} not recorded)" if total.not_recorded else ")"
        blocks.append(
            Block(
                item(name, counted + missing, paper),
                name=f"availability {setting}",
                card="roster/availability",
                opens=Opens(What.AVAILABILITY),
            )
        )
    lost, days = availability.unavailable_days, availability.roster_days
    text = f"{lost:,} of {days:,} roster days lost to injury"
    lines = item("days", text, paper)
    card = "roster/days lost"
    return [*blocks, Block(lines, name="days lost", card=card, opens=Opens(What.INJURIES))]
