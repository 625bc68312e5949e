"""The sessions whose attendance can be written down, as lines to choose from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.log.parts import LogSession, LogSessions
from seasonboard.ui.layout.blocks import Block, Paper, paragraph
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.log.drafts import SheetDraft

NOTHING = "There is no session by today in this scope. n makes one."
_START, _SETTING, _STATE = 23, 9, 16


@dataclass(frozen=True, slots=True)
class SessionLine:
    """One line: a session, and the draft there is of it."""

    session: LogSession
    draft: SheetDraft | None = None


def session_lines(
    sessions: LogSessions, drafts: Sequence[SheetDraft]
) -> tuple[tuple[SessionLine, ...], int | None]:
    """Return the lines, drafts of sessions not in the store on top, and where to begin.

    Where there are drafts, that is the one kept last; else the session that is proposed.
    """
    drafted_sessions = {draft.session.session: draft for draft in drafts}
    there = {one.session for one in sessions.sessions}
    new = tuple(
        SessionLine(draft.session, draft)
        for key, draft in drafted_sessions.items()
        if key not in there and draft.session.is_new and draft.session.team in sessions.names
    )
    lines_held = tuple(
        SessionLine(one, drafted_sessions.get(one.session)) for one in sessions.sessions
    )
    lines = (*new, *lines_held)
    drafted = [place for place, line in enumerate(lines) if line.draft is not None]
    if drafted:
        at = {place: lines[place].draft for place in drafted}
        return lines, max(drafted, key=lambda place: _kept_at(at[place]))
    return lines, None if sessions.proposed is None else sessions.proposed + len(new)


def _kept_at(draft: SheetDraft | None) -> float:
    return draft.kept_at.timestamp() if draft is not None else 0.0


def sessions_page(
    lines: Sequence[SessionLine], names: Mapping[str, str], paper: Paper
) -> list[Block]:
    """Return one line a session: when, what, how much is recorded, which team."""
    if not lines:
        return [Block(paragraph(NOTHING, paper.width))]
    return [Block((_line(line, names, paper),), name=line.session.session or " ") for line in lines]


def _line(line: SessionLine, names: Mapping[str, str], paper: Paper) -> Text:
    one = line.session
    at = one.local_start
    text = Text(fit(f" {at:%a} {at.day:>2} {at:%b %Y %H:%M}", _START), no_wrap=True)
    text.append(fit(one.setting, _SETTING))
    if line.draft is not None:
        text.append(fit(f"✎ draft {kept_words(line.draft)}", _STATE + 6), paper.ink.strong)
    elif one.recorded:
        text.append(fit(f"● {words.plural(one.recorded, 'athlete')}", _STATE), paper.ink.quiet)
    else:
        text.append(fit("○ not recorded", _STATE), paper.ink.strong)
    about = clean(names.get(one.team, one.team)) + (f" · {clean(one.label)}" if one.label else "")
    return text.append(fit(about, max(0, paper.width - text.cell_len)))


def kept_words(draft: SheetDraft) -> str:
    """Return when a draft was kept: `14 Nov 18:05`."""
    at = draft.kept_at.astimezone()
    return f"{at.day} {at:%b %H:%M}"
