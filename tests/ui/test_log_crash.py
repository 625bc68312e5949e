"""A sheet that was being filled in outlives the program, in a real terminal."""

import os
import re
import stat
import threading
from datetime import datetime

import pytest

from seasonboard.answers.log.parts import LogSession, Mark
from seasonboard.store.intake.export import export_tables
from seasonboard.store.store import open_store
from seasonboard.ui.log.drafts import Drafts, SheetDraft
from tests.ui.logging_season import squad, store_of
from tests.ui.terminal import Terminal

AT = datetime.fromisoformat("2026-09-04T12:00+00:00")
SESSION = LogSession("P4", "T", "2026", AT, AT.replace(tzinfo=None), "practice", "[/x] “cup”")
KEPT_AT = datetime.fromisoformat("2026-11-14T18:05+01:00")


@pytest.fixture
def data(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return tmp_path / "data"


def draft(**marks):
    return SheetDraft(SESSION, KEPT_AT, marks)


@pytest.mark.long
def test_what_was_typed_is_there_after_a_kill_and_saved_once(tmp_path):
    store = store_of(squad(30), tmp_path)
    names = ("HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME")
    env = {name: str(tmp_path / "home") for name in names}
    first = Terminal("--store", store, env=env)
    first.until_it_says("What changed this week")
    first.press("l")
    first.until_it_says("Attendance")
    first.press("a")
    first.until_it_says("which session?")
    first.press("\r17oi")  # in one go, as over a slow line; the list may not be there yet
    first.until_it_says("28 full, 0 limited, 2 out")
    first.press("9w\x1b[Bl")
    first.until_it_says("27 full, 1 limited, 2 out; 11 wearing")
    kept = tmp_path / "home"
    first.until(lambda _: any(_holds(path, '"A10"') for path in kept.rglob("*.json")))
    first.kill()

    again = Terminal("--store", store, env=env)
    again.until_it_says("What changed this week")
    again.press("l")
    again.until_it_says("Attendance")
    again.press("a")
    again.until_it_says("✎ draft")
    again.press("\r")
    shown = again.until_it_says("take it up?")
    assert "3 lines changed" in shown
    again.press("y")
    again.until_it_says("27 full, 1 limited, 2 out; 11 wearing")
    again.until(lambda shown: re.search(r"\+ +17 .*○ out, injury", shown) is not None)
    again.press("\x13")  # ctrl+s
    again.until_it_says("Saved: 41 new rows")
    again.press("l")
    again.until_it_says("u on any screen")
    again.press("a")
    assert "draft" not in again.until_it_says("● 30 athletes")
    again.press("\x11")  # ctrl+q
    again.kill()
    with open_store(store) as held:
        found = export_tables(held)["attendance"].filter(session="P4").sort("athlete")
    other = found.filter(found["part"] != "full").select("athlete", "part", "reason").rows()
    assert other == [("A10", "limited", None), ("A17", "out", "injury"), ("A5", "out", "injury")]


def _holds(path, text):
    return text in path.read_text("utf-8")


def test_a_draft_is_read_as_it_was_kept_and_only_by_its_user(data):
    drafts = Drafts("season.store")
    kept = draft(A1=Mark("out", "injury"), A2=Mark("full", None, 45.5, 30, frozenset({"g"})))
    assert drafts.find("P4") is None
    assert drafts.keep(kept, 1)
    assert drafts.find("P4") == kept
    assert drafts.all() == (kept,)
    (path,) = data.rglob("*.json")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert not list(data.rglob("*.part"))
    assert Drafts("other.store").all() == ()
    drafts.remove("P4", 2)
    assert drafts.all() == ()


def test_a_writing_that_comes_late_neither_overwrites_nor_brings_back(data):
    drafts = Drafts("season.store")
    assert drafts.keep(draft(A1=Mark("out")), 2)
    assert not drafts.keep(draft(A1=Mark("full")), 1)
    assert drafts.find("P4").marks == {"A1": Mark("out")}
    drafts.remove("P4", 3)
    assert not drafts.keep(draft(A1=Mark("full")), 2)
    assert drafts.find("P4") is None


def test_of_many_threads_the_last_number_stays(data):
    drafts = Drafts("season.store")
    threads = [
        threading.Thread(target=drafts.keep, args=(draft(A1=Mark(minutes=float(n))), n))
        for n in range(20)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert drafts.find("P4").marks["A1"].minutes == 19.0


@pytest.mark.parametrize(
    "left", ["", "{", "[]", '{"form": 99}', '{"form": 1, "session": {}}', "\0"]
)
def test_what_is_not_a_draft_is_passed_over(data, left):
    drafts = Drafts("season.store")
    drafts.keep(draft(A1=Mark("out")), 1)
    (path,) = data.rglob("*.json")
    path.write_text(left, "utf-8")
    assert drafts.find("P4") is None
    assert drafts.all() == ()


def test_a_writing_that_fails_leaves_the_draft_before_it(data, monkeypatch):
    drafts = Drafts("season.store")
    drafts.keep(draft(A1=Mark("out")), 1)

    def full(_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        drafts.keep(draft(A1=Mark("full")), 2)
    assert drafts.find("P4").marks == {"A1": Mark("out")}
    assert not list(data.rglob("*.part"))
