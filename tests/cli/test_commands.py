"""The command line as a process: what it prints, where, and with which status."""

import csv
import io
import json
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent.parent
SHIN = ("--kind", "shin")


@pytest.mark.long
def test_the_sample_is_asked_with_one_command(run):
    done = run("ask", "compare", "--sample", *SHIN)
    assert done.status == 0, done.err
    assert done.out.startswith("Are guarded athletes hurt less?\n")
    assert "same session" in done.out


@pytest.mark.long
@pytest.mark.parametrize("question", ["compare", "games"])
def test_json_is_one_object_and_csv_holds_its_numbers_unrounded(run, sample_store, question):
    asked = ("ask", question, "--store", sample_store, *SHIN, "--format")
    found = run(*asked, "json").json
    assert found["question"] == question
    assert found["scope"]["kind"] == ["shin"]
    assert found["scope"]["purpose"] == "preventive"
    assert {"answer", "caveats", "left_out"} <= found.keys()
    rows = list(csv.DictReader(io.StringIO(run(*asked, "csv").out)))
    if question == "compare":
        expected = [(c["comparison"], c["rate_ratio"]) for c in found["comparisons"]]
        told = [(r["comparison"], r["rate_ratio"]) for r in rows]
    else:
        expected = [("", p["survival"]) for g in found["groups"] for p in g["curve"]]
        told = [("", r["survival"]) for r in rows]
    assert [(name, float(text) if text else None) for name, text in told] == expected


@pytest.mark.long
def test_a_pitch_is_made_for_the_teams_of_a_table(run, sample_store, tmp_path):
    """Same seed, same numbers: as text and as JSON."""
    teams = tmp_path / "teams.csv"
    heads = "sport,sex,position_group,athletes,games,practices"
    teams.write_text(f"{heads}\nsoccer,women,,26,20,60\n", "utf-8")
    plan = ("--teams", teams, "--take-up", "0.6", "--prints-per-week", "12")
    fees = ("--weekly-per-print", "85")
    asked = ("ask", "pitch", "--store", sample_store, *SHIN, *plan, "--seasons", "500")
    told = run(*asked)
    assert told.status == 0, told.err
    assert "One season of 1 team of the prospect, 26 athletes" in " ".join(told.out.split())
    found = run(*asked, "--format", "json").json
    assert found["answer"] in " ".join(told.out.split())
    assert found["teams"][0]["sport"] == "soccer"
    assert found["inputs"][0]["value"] == 0.6
    wrong = run(*asked, *fees)
    assert wrong.status == 2
    assert "without its currency" in wrong.err


def test_several_values_are_parted_by_commas(run, sample_store):
    asked = ("ask", "compare", "--store", sample_store, "--format", "json")
    both = run(*asked, "--kind", "shin, thumb").json
    assert both["scope"]["kind"] == ["shin", "thumb"]
    assert any("2 kinds of guard" in caveat for caveat in both["caveats"])


def test_an_unknown_value_names_the_nearest_and_the_known(run, sample_store):
    done = run("ask", "compare", "--store", sample_store, "--kind", "shinn")
    assert (done.status, done.out) == (2, "")
    for part in ("“shinn”", "Did you mean “shin”?", "thumb"):
        assert part in done.err


@pytest.mark.long
def test_through_rewinds(run, sample_store):
    asked = ("ask", "compare", "--store", sample_store, "--format", "json")
    early, late = run(*asked, "--through", "2026-09-30").json, run(*asked).json
    assert early["scope"]["through"] == "2026-09-30"
    assert early["unguarded"]["exposures"] < late["unguarded"]["exposures"]


@pytest.mark.parametrize(
    ("words", "summary"),
    [
        (("--sample",), "needs a terminal"),
        (("ask", "compare"), "No store was named"),
        (("ask", "compare", "--store", "/nowhere/none.duckdb"), "no store at"),
        (("load", "nowhere.csv", "--store", "/nowhere/none.duckdb", "--yes"), "nowhere"),
        (("ask", "nonsense", "--sample"), "No such command"),
        (("ask", "compare", "--sample", "--through", "31 Nov"), "is not a date"),
        (("ask", "compare", "--sample", "--level", "2000"), "not a confidence level"),
        (("ask", "games", "--sample", "--setting", "practices"), "No practice ticks"),
        (("ask", "games", "--sample", "--min-at-risk", "0"), "too few"),
    ],
)
def test_a_wrong_request_is_told_on_standard_error_with_status_2(run, tmp_path, words, summary):
    done = run(*words, env={"XDG_CONFIG_HOME": str(tmp_path)})
    assert done.status == 2
    assert summary in done.err
    assert "Traceback" not in done.err
    assert done.out == ""


@pytest.mark.parametrize("words", [("ask", "week"), ("load", "sample_season", "--yes")])
def test_the_last_store_is_named_when_it_is_gone_and_none_is_made_in_its_place(
    run, tmp_path, words
):
    gone = tmp_path / "season.duckdb"
    memory = tmp_path / "seasonboard" / "last_store"
    memory.parent.mkdir()
    memory.write_text(f"{gone}\n")
    done = run(*words, env={"XDG_CONFIG_HOME": str(tmp_path)})
    assert (done.status, done.out) == (2, "")
    assert f"not there any more: {gone}" in " ".join(done.err.split())
    assert not gone.exists()


@pytest.mark.long
def test_a_load_is_planned_asked_about_then_written_and_then_changes_nothing(run, tmp_path):
    store = tmp_path / "season.duckdb"
    load = ("load", ROOT / "sample_season", "--store", store)
    plan = run(*load, "--plan")
    assert plan.status == 0
    assert "attendance" in plan.out
    assert not store.exists()
    refused = run(*load, stdin="n\n")
    assert "Nothing was written." in refused.out
    assert not store.exists()
    agreed = run(*load, stdin="y\n")
    assert agreed.status == 0
    assert f"Written to {store}." in agreed.out
    again = run(*load, "--yes")
    assert "are there already." in again.out
    assert re.search(r"attendance +0 +0 +26,987", again.out)


def test_a_bad_row_is_told_with_its_place_and_nothing_is_written(run, tmp_path):
    for table in ("departments", "teams", "roster", "sessions"):
        source = (ROOT / "sample_season" / f"{table}.csv").read_text("utf-8")
        (tmp_path / f"{table}.csv").write_text(source, "utf-8")
    session, athlete = (
        (tmp_path / f"{table}.csv").read_text("utf-8").splitlines()[1].split(",")[0]
        for table in ("sessions", "roster")
    )
    wrong = f"session,athlete,part\n{session},{athlete},ful\n"
    (tmp_path / "attendance.csv").write_text(wrong, "utf-8")
    store = tmp_path / "season.duckdb"
    done = run("load", tmp_path, "--store", store, "--yes")
    assert done.status == 2
    for part in ("attendance.csv, row 2, column part", "“ful”", "Did you mean “full”?"):
        assert part in done.err
    assert not store.exists()


def test_the_sample_is_written_as_tables(run, tmp_path):
    done = run("sample", tmp_path / "tables", "--seed", 5, "--size", 0.5)
    assert done.status == 0, done.err
    assert (tmp_path / "tables" / "attendance.csv").is_file()
    truth = json.loads((tmp_path / "tables" / "truth.json").read_text("utf-8"))
    assert truth


def test_names_with_markup_and_wide_letters_pass_letter_for_letter(run, tmp_path, sample_store):
    """A roster with names that look like markup loads, and loads again as the same."""
    teams = (ROOT / "sample_season" / "teams.csv").read_text("utf-8").splitlines()
    team = next(csv.DictReader(teams))["team"]
    names = ("[/x] Lee", "[QB] Lee", "[bold]Ana[/]", "Sam \\", "李小龙", "👍🏽 Rae")
    rows = [f'X-{number},{team},2026 fall,"{name}"\n' for number, name in enumerate(names)]
    roster = tmp_path / "roster.csv"
    roster.write_text("athlete,team,season,name\n" + "".join(rows), "utf-8")
    store = tmp_path / "copy.duckdb"
    store.write_bytes(Path(sample_store).read_bytes())
    for counts in ("6 +0 +0", "0 +0 +6"):
        done = run("load", roster, "--store", store, "--yes")
        assert done.status == 0, done.err
        assert re.search(rf"roster +{counts}", done.out)


def test_help_tells_every_option(run):
    from seasonboard.scope import PARTS

    shown = run("ask", "games", "--help").out
    for part in PARTS:
        assert f"--{part.replace(' ', '-')}" in shown
    for option in ("--store", "--sample", "--format", "--clock", "--horizon", "--min-at-risk"):
        assert option in shown
