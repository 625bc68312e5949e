"""The sessions whose attendance can be written down, as lines to choose from."""

from collections.abc import Mapping, Sequence

from rich.text import Text

from seasonboard.answers import words
from seasonboard.answers.log.parts import LogSession, LogSessions
from seasonboard.ui.layout.blocks import Block, Paper, paragraph
from seasonboard.ui.layout.format import clean, fit
from seasonboard.ui.log.drafts import SheetDraft

NOTHING = "There is no session by today in this scope. n makes one."
_START, _SETTING, _STATE, _WEAR = 23, 9, 14, 3
WEAR = {"yes": "w✓", "no": "w✗"}
"""Whether wear is recorded for everybody; where nobody said, a question mark."""


def listed_sessions(
    sessions: LogSessions, drafts: Mapping[str, SheetDraft]
) -> tuple[tuple[LogSession, ...], int | None]:
    """Return the sessions, those with a draft that are not in the store on top, and where to begin.

    Where there are drafts, that is the one kept last; else the session that is proposed.
    """
    there = {one.session for one in sessions.sessions}
    new = [
        one
        for one in (draft.session for draft in drafts.values())
        if one.session not in there and one.is_new and one.team in sessions.names
    ]
    listed = (*new, *sessions.sessions)
    drafted = [n for n, one in enumerate(listed) if one.session in drafts]
    if drafted:
        return listed, max(drafted, key=lambda n: drafts[listed[n].session].kept_at.timestamp())
    return listed, None if sessions.proposed is None else sessions.proposed + len(new)


def sessions_page(
    listed: Sequence[LogSession],
    drafts: Mapping[str, SheetDraft],
    names: Mapping[str, str],
    paper: Paper,
) -> list[Block]:
    """Return one line a session: when, what, how much is recorded, which team."""
    if not listed:
        return [Block(paragraph(NOTHING, paper.width))]
    return [
        Block((_line(one, drafts.get(one.session), names, paper),), name=one.session or " ")
        for one in listed
    ]


def _line(
    one: LogSession, draft: SheetDraft | None, names: Mapping[str, str], paper: Paper
) -> Text:
    at = one.local_start
    text = Text(fit(f" {at:%a} {at.day:>2} {at:%b %Y %H:%M}", _START), no_wrap=True)
    text.append(fit(one.setting, _SETTING))
    if draft is not None:
        text.append(fit(f"✎ draft {kept_words(draft)}", _STATE + _WEAR), paper.ink.strong)
    elif one.recorded:
        text.append(fit(f"● {words.plural(one.recorded, 'athlete')}", _STATE), paper.ink.quiet)
        text.append(fit(WEAR.get(one.wear_complete or "", "w?"), _WEAR), paper.ink.quiet)
    else:
        text.append(fit("○ not recorded", _STATE + _WEAR), paper.ink.strong)
    about = clean(names.get(one.team, one.team)) + (f" · {clean(one.label)}" if one.label else "")
    return text.append(fit(about, max(0, paper.width - text.cell_len)))


def kept_words(draft: SheetDraft) -> str:
    """Return when a draft was kept: `14 Nov 18:05`."""
    at = draft.kept_at.astimezone()
    return f"{at.day} {at:%b %H:%M}"
