"""Unsaved sheets, kept as files of the user's own, so that a crash loses nothing."""

import hashlib
import json
import os
import tempfile
import threading
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from textual import work
from textual.message import Message
from textual.widget import Widget

from seasonboard.answers.log.parts import LogSession, Mark
from seasonboard.regular_files import read_json

if TYPE_CHECKING:
    from textual.timer import Timer

PAUSE = 0.2
"""Seconds after a key until the draft is kept."""
FORM = 1
"""The form of the file; a draft of another form is left alone."""


@dataclass(frozen=True, slots=True)
class SheetDraft:
    """What was typed and not saved: of which session, when, and about whom.

    `marks` holds only athletes whose line was changed; `is_complete` is whether wear is recorded
    for everybody.
    """

    session: LogSession
    kept_at: datetime
    marks: Mapping[str, Mark]
    is_complete: bool | None = None


class Drafts:
    """The drafts of one store, a file each in the user's data folder, readable by the user only.

    Files are written beside and renamed, so that one that is killed leaves the draft before it.
    """

    def __init__(self, store_label: str) -> None:
        """Keep the drafts of the store at `store_label`."""
        self._place = store_label
        self._lock = threading.Lock()
        self._last = 0

    @property
    def folder(self) -> Path:
        """Return where they are."""
        from platformdirs import user_data_path

        store = hashlib.sha256(str(Path(self._place).resolve()).encode()).hexdigest()[:16]
        return user_data_path("seasonboard", appauthor=False) / "drafts" / store

    def keep(self, draft: SheetDraft, number: int) -> bool:
        """Write a draft, unless one with a higher number was written or removed; say whether.

        Raises:
            OSError: It cannot be written.
        """
        with self._lock:
            if number < self._last:
                return False
            self._last = number
            target = self._file(draft.session.session)
            target.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            handle, beside = tempfile.mkstemp(dir=target.parent, suffix=".part")
            try:
                with os.fdopen(handle, "w", encoding="utf-8") as out:
                    stored = {"form": FORM, **asdict(draft)}
                    json.dump(stored, out, ensure_ascii=False, default=_as_json)
                    out.flush()
                    os.fsync(out.fileno())
                Path(beside).replace(target)
            except OSError:
                Path(beside).unlink(missing_ok=True)
                raise
            return True

    def remove(self, session: str, number: int) -> None:
        """Remove a session's draft; writings with a lower number that come late do nothing."""
        with self._lock:
            self._last = max(self._last, number)
            try:
                self._file(session).unlink(missing_ok=True)
            except OSError:
                return  # a draft that stays is offered again, and that can be declined

    def find(self, session: str) -> SheetDraft | None:
        """Return the draft of one session; None where there is none that can be read."""
        return _read(self._file(session))

    def all(self) -> tuple[SheetDraft, ...]:
        """Return every draft, the one kept last first."""
        drafts = [draft for path in self.folder.glob("*.json") if (draft := _read(path))]
        return tuple(sorted(drafts, key=lambda draft: draft.kept_at, reverse=True))

    def _file(self, session: str) -> Path:
        return self.folder / f"{hashlib.sha256(session.encode()).hexdigest()[:16]}.json"


def _as_json(cell: datetime | frozenset[str]) -> str | list[str]:
    return cell.isoformat() if isinstance(cell, datetime) else sorted(cell)


def _read(path: Path) -> SheetDraft | None:
    try:
        stored = read_json(path)
        if stored["form"] != FORM:
            return None
        session = stored["session"]
        for name in ("starts_at", "local_start"):
            session[name] = datetime.fromisoformat(session[name])
        marks = {
            athlete: Mark(**mark | {"worn": frozenset(mark["worn"])})
            for athlete, mark in stored["marks"].items()
        }
        kept_at = datetime.fromisoformat(stored["kept_at"])
        draft = SheetDraft(LogSession(**session), kept_at, marks, stored.get("is_complete"))
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return None  # none there, or not one of ours
    return draft if _is_well_formed(draft) else None


def _is_well_formed(draft: SheetDraft) -> bool:
    """Say whether every part is of its kind, and instants have their offset."""
    session = draft.session
    words = [session.session, session.team, session.season, session.setting]
    optional: list[object] = [session.label, session.wear_complete]
    numbers: list[object] = [session.recorded]
    for athlete, mark in draft.marks.items():
        words += [athlete, *mark.worn]
        optional += [mark.part, mark.reason]
        numbers += [mark.minutes, mark.plays]
    return (
        draft.kept_at.tzinfo is not None
        and session.starts_at.tzinfo is not None
        and session.local_start.tzinfo is None
        and isinstance(session.is_new, bool)
        and isinstance(draft.is_complete, bool | None)
        and all(isinstance(one, str) for one in words)
        and all(one is None or isinstance(one, str) for one in optional)
        and all(one is None or type(one) in {int, float} for one in numbers)
    )


class DraftKeeper(Widget):
    """The draft of one session's sheet; nothing of it is seen."""

    DEFAULT_CSS = "DraftKeeper { display: none; }"

    @dataclass
    class Lost(Message):
        """The draft could not be kept."""

        why: str

    def __init__(self, drafts: Drafts, session: str, draft: Callable[[], SheetDraft]) -> None:
        """Keep what `draft` gives of a session among `drafts`."""
        super().__init__()
        self.drafts = drafts
        self._session = session
        self._draft = draft
        self._number = 0
        self._timer: Timer | None = None

    def keep_soon(self) -> None:
        """Keep the draft once no further key came for a moment."""
        self._stop_waiting()
        self._timer = self.set_timer(PAUSE, self._keep)

    def _stop_waiting(self) -> bool:
        """Say whether a change was not in the draft yet."""
        timer, self._timer = self._timer, None
        if timer is not None:
            timer.stop()
        return timer is not None

    def _keep(self) -> None:
        self._timer = None
        self._number += 1
        self._keep_in_thread(self._draft(), self._number)

    @work(thread=True, group="draft")
    def _keep_in_thread(self, draft: SheetDraft, number: int) -> None:
        self._write(draft, number)

    def keep_now(self) -> None:
        """Keep what is not in the draft yet."""
        if self._stop_waiting():
            self._number += 1
            self._write(self._draft(), self._number)

    def _write(self, draft: SheetDraft, number: int) -> None:
        try:
            self.drafts.keep(draft, number)
        except OSError as error:
            self.post_message(self.Lost(str(error)))

    def forget(self) -> None:
        """Remove the draft."""
        self._stop_waiting()
        self._number += 1
        self.drafts.remove(self._session, self._number)

    def on_unmount(self) -> None:
        """Keep what is not in the draft yet, however the board is left."""
        self.keep_now()
