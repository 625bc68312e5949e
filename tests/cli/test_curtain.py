"""The curtain on the command line, and the key its codes are made with."""

import json
import re

from seasonboard import last_used as remembered


def test_ask_covers_names_and_takes_a_code_for_an_athlete(run, sample_store):
    asked = ("ask", "roster", "--store", sample_store, "--department", "LF", "--format", "json")
    named = run(*asked).json["athletes"]
    covered = run(*asked, "--curtain").json["athletes"]
    assert len(covered) == len(named)
    assert all(re.fullmatch(r"athlete [2-9B-Z]{4,}", one["name"]) for one in covered)
    known = {one[part] for one in named for part in ("name", "athlete")}
    assert not known & {part for one in covered for part in (one["name"], one["athlete"])}
    one = covered[0]["athlete"]
    only = run(*asked, "--athlete", one, "--curtain").json
    assert only["athlete"] == one
    told = json.dumps(only)
    assert not [name for name in known if name in told]


def test_the_key_is_made_once_and_is_the_user_s_own(monkeypatch, tmp_path):
    monkeypatch.setattr(remembered, "settings_folder", lambda: tmp_path / "new")
    first = remembered.curtain_secret()
    assert remembered.curtain_secret() == first
    assert len(first) == 64
    assert (tmp_path / "new" / "curtain_key").stat().st_mode & 0o077 == 0
    monkeypatch.setattr(remembered, "settings_folder", lambda: tmp_path / "another")
    assert remembered.curtain_secret() != first


def test_without_a_place_for_the_key_the_codes_last_for_the_run(monkeypatch, tmp_path):
    (tmp_path / "file").write_text("")
    monkeypatch.setattr(remembered, "settings_folder", lambda: tmp_path / "file" / "below")
    assert len(remembered.curtain_secret()) == 64
