"""The page of the Roster screen, drawn from its answer."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from seasonboard.answers import words
from seasonboard.answers.returns.out_now import short_out_words
from seasonboard.answers.roster.athletes_table import ATHLETES
from seasonboard.answers.roster.parts import STRIP, GuardState
from seasonboard.answers.roster.words import (
    STRIP_KEY,
    game_words,
    reasons_words,
    short_guard_words,
    state_word,
)
from seasonboard.ui.layout import page_parts
from seasonboard.ui.layout.blocks import (
    GAP,
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
from seasonboard.ui.layout.columns import in_columns
from seasonboard.ui.layout.tables import Head, column, table_blocks
from seasonboard.ui.pictures.marks import strip

if TYPE_CHECKING:
    from seasonboard.answers.roster.parts import RosterAnswer, RosterAthlete, RosterGuard


_CARD, _OPENS = "roster/state", Opens(What.ROSTER)
_WRAPS = 112
"""Cells of paper from which on no cell of the table is cut."""


def roster_page(answer: "RosterAnswer", paper: Paper) -> Sequence[Block]:
    """Return question, answer, next games, one line an athlete, availability, caveats."""
    summary = answer.summary
    ends = (
        partial(_games, answer),
        partial(_availability, answer),
        *page_parts.ends(summary, _CARD, _OPENS),
    )
    opening = page_parts.opening(summary, paper, _CARD, _OPENS)
    sections = (partial(_table, answer), partial(_attention, answer), *ends)
    return [*opening, *in_columns(sections, paper, on_the_left=1, left_share=0.66)]


def _table(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    """Return one line an athlete, with the key of the strips below."""
    wraps = paper.width >= _WRAPS
    heads = (
        column(ATHLETES.field("name"), 17, heading="athlete", grows=True, most=24),
        column(ATHLETES.field("position"), 14, least=_WRAPS),
        Head("sessions", STRIP, cell=lambda athlete: strip(athlete.strip, paper.ink)),
        column(ATHLETES.field("state"), 28, grows=True, most=34, wraps=wraps),
        Head("guard", 18, grows=True, most=70, wraps=wraps, cell=_guards),
    )

    def stop(one: "RosterAthlete") -> tuple[str, str, Opens]:
        name = f"athlete {one.athlete} {one.team} {one.season}"
        return name, "roster/guards" if one.guards else _CARD, Opens(What.ATHLETE, one.athlete)

    table = table_blocks(heads, answer.athletes, paper, stop)
    return pictured([*table, Block(note(STRIP_KEY, paper))]) if table else []


def _guards(athlete: "RosterAthlete") -> str:
    return "; ".join(map(short_guard_words, athlete.guards)) or "none"


def _attention(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    """Name those whom the three questions of a roster are about; the rest is only counted."""
    out = [a for a in answer.athletes if a.status.value in {"out", "limited"}]
    unknown = answer.headline.not_recorded
    nobody = f"nobody of those recorded; {unknown} are not" if unknown else "nobody"
    unworn = _with_guard(answer, lambda guard: guard.state is GuardState.UNWORN)
    facts = [f"{a.name} ({short_out_words(a.out_now)})" for a in out if a.out_now is not None]
    lists = (
        ("Out or limited", [f"{a.name} ({state_word(a)})" for a in out], nobody),
        ("Like injuries over; return guard", facts, "nobody out at a site guards can cover"),
        ("Guard late", _with_guard(answer, lambda guard: guard.is_late), "nobody"),
        ("Has one, not worn lately", unworn, "nobody"),
    )
    reasons = reasons_words(answer.headline)
    why = [Block(item("Why:", reasons, paper), "reasons", _CARD, _OPENS)] if reasons else []
    most = max(3, paper.height // 5)
    blocks = [GAP]
    for name, names, otherwise in lists:
        text = "; ".join(names[:most]) or otherwise
        more = len(names) - most
        text += f"; and {more} more" if more > 0 else ""
        blocks.append(Block(item(f"{name}:", text, paper), name, _CARD, _OPENS))
    return [*blocks, *why]


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
    blocks = [title("Next games", paper)]
    for game in games:
        lines = item(game.team_name, game_words(game), paper)
        blocks.append(Block(lines, f"game {game.team} {game.season}", _CARD, _OPENS))
    return blocks if len(games) > 1 else []


def _availability(answer: "RosterAnswer", paper: Paper) -> list[Block]:
    availability = answer.availability
    blocks = [title("Availability", paper)]
    card, opens = "roster/availability", Opens(What.AVAILABILITY)
    for setting, name in (("all", "sessions"), ("game", "games")):
        total = availability.total(setting)
        share = total.why if total.share is None else f"{words.percent(total.share)} available"
        text = f"{share} ({total.available:,} of {total.recorded:,} athletes' {name} recorded"
        text += f", {total.not_recorded:,} not recorded)" if total.not_recorded else ")"
        blocks.append(Block(item(name, text, paper), f"availability {setting}", card, opens))
    lost, days = availability.unavailable_days, availability.roster_days
    lines = item("days", f"{lost:,} of {days:,} roster days lost to injury", paper)
    return [*blocks, Block(lines, "days lost", "roster/days lost", INJURIES)]
