"""A sheet that was being filled in outlives the program, in a real terminal."""

import os
import re
import stat
import threading
from datetime import datetime
from unittest.mock import Mock

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


@pytest.fixture
def drafts(data):
    return Drafts("season.store")


def draft(**marks):
    return SheetDraft(SESSION, KEPT_AT, marks)


@pytest.mark.long
def test_what_was_typed_is_there_after_a_kill_and_saved_once(tmp_path):
    store = store_of(squad(30), tmp_path)
    names = ("HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME")
    env = {name: str(tmp_path / "home") for name in names}
    first = Terminal("--store", store, env=env)
    for shown, keys in (
        ("What changed this week", "l"),
        ("Attendance", "a"),
        ("which session?", "\r17oi"),  # in one go, as over a slow line; no list may be there yet
        ("28 full, 0 limited, 2 out", "9w\x1b[Bl"),
        ("27 full, 1 limited, 2 out; 11 wearing", ""),
    ):
        first.until_it_says(shown)
        first.press(keys)
    kept = tmp_path / "home"
    first.until(lambda _: any('"A10"' in one.read_text("utf-8") for one in kept.rglob("*.json")))
    first.kill()

    again = Terminal("--store", store, env=env)
    for shown, keys in (
        ("What changed this week", "l"),
        ("Attendance", "a"),
        ("✎ draft", "\r"),
        ("take it up?", "y"),
        ("27 full, 1 limited, 2 out; 11 wearing", ""),
    ):
        seen = again.until_it_says(shown)
        assert "3 lines changed" in seen or keys != "y"
        again.press(keys)
    again.until(lambda shown: re.search(r"\+ +17 .*○ out, injury", shown) is not None)
    for keys, shown in (
        ("\x13", "Saved: 42 new rows, 1 changed"),  # ctrl+s
        ("l", "u on any screen"),
        ("a", "● 30 athletes"),
    ):
        again.press(keys)
        seen = again.until_it_says(shown)
    assert "draft" not in seen
    again.press("\x11")  # ctrl+q
    again.kill()
    with open_store(store) as held:
        found = export_tables(held)["attendance"].filter(session="P4").sort("athlete")
    other = found.filter(found["part"] != "full").select("athlete", "part", "reason").rows()
    assert other == [("A10", "limited", None), ("A17", "out", "injury"), ("A5", "out", "injury")]


def test_a_draft_is_read_as_it_was_kept_and_only_by_its_user(data, drafts):
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


def test_a_writing_that_comes_late_neither_overwrites_nor_brings_back(drafts):
    assert drafts.keep(draft(A1=Mark("out")), 2)
    assert not drafts.keep(draft(A1=Mark("full")), 1)
    assert drafts.find("P4").marks == {"A1": Mark("out")}
    drafts.remove("P4", 3)
    assert not drafts.keep(draft(A1=Mark("full")), 2)
    assert drafts.find("P4") is None


def test_of_many_threads_the_last_number_stays(drafts):
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
def test_what_is_not_a_draft_is_passed_over(data, drafts, left):
    drafts.keep(draft(A1=Mark("out")), 1)
    (path,) = data.rglob("*.json")
    path.write_text(left, "utf-8")
    assert drafts.find("P4") is None
    assert drafts.all() == ()


def test_a_writing_that_fails_leaves_the_draft_before_it(data, drafts, monkeypatch):
    drafts.keep(draft(A1=Mark("out")), 1)

    monkeypatch.setattr(os, "fsync", Mock(side_effect=OSError(28, "No space left on device")))
    with pytest.raises(OSError, match="No space"):
        drafts.keep(draft(A1=Mark("full")), 2)
    assert drafts.find("P4").marks == {"A1": Mark("out")}
    assert not list(data.rglob("*.part"))
