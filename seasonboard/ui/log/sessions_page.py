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
    drafted = {draft.session.session: draft for draft in drafts}
    there = {one.session for one in sessions.sessions}
    new = [
        one
        for one in (draft.session for draft in drafts)
        if one.session not in there and one.is_new and one.team in sessions.names
    ]
    lines = tuple(SessionLine(one, drafted.get(one.session)) for one in (*new, *sessions.sessions))
    kept_at = {n: line.draft.kept_at.timestamp() for n, line in enumerate(lines) if line.draft}
    if kept_at:
        return lines, max(kept_at, key=kept_at.__getitem__)
    return lines, None if sessions.proposed is None else sessions.proposed + len(new)


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
