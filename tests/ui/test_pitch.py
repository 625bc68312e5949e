"""The Pitch screen: what it shows, and how the prospect and the plan are typed in."""

import shutil
from contextlib import ExitStack
from dataclasses import replace
from types import SimpleNamespace
from unittest.mock import Mock

import pytest
from rich.cells import cell_len
from textual.widgets import DataTable, Input

from seasonboard.answers.options import as_typed
from seasonboard.answers.pitch.options import EffectLimits, PitchOptions
from seasonboard.answers.questions import PITCH
from seasonboard.answers.source import AnswerSource
from seasonboard.cli.ask import ask_command
from seasonboard.disclosure.count_table import CountTable
from seasonboard.disclosure.renewal import MaskedTable
from seasonboard.errors import IntakeError, Problem
from seasonboard.prospect import Prospect, ProspectTeam
from seasonboard.releases.block import Block, Figure, Release
from seasonboard.releases.making import ReleasePlan
from seasonboard.saving import files
from seasonboard.scope import View
from seasonboard.store.intake.prospects import read_prospect
from seasonboard.store.store import open_store
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.ui.forms.plan_form import read_plan
from seasonboard.ui.forms.prospect_team_form import read_team, typed_team
from seasonboard.ui.forms.sitting_form import TakenForm
from seasonboard.ui.layout.blocks import Paper
from seasonboard.ui.pitch.large_figures import large
from seasonboard.ui.pitch.page import pitch_page
from seasonboard.ui.pitch.prospect_path import NO_FILES
from seasonboard.ui.pitch.screen import PitchScreen
from seasonboard.ui.pitch.teams_window import LEAVING, NO_TEAM, TeamsScreen
from seasonboard.wiring import StoreMaker
from tests.releasing import MADE_ON, release_shin
from tests.ui.board import (
    LARGE,
    SMALL,
    check,
    fill,
    go_to,
    opened,
    press,
    resize,
    running,
    settle,
    state,
    text,
    until,
    words,
)
from tests.ui.covered import TELLING
from tests.ui.kept import at_work, rows, typing
from tests.ui.stand_in import StandIn, frames, lines_of, strata
from tests.ui.test_saving import choose, told

SERVED = (
    ProspectTeam("lacrosse", "women", 28, (), 16, 50),
    ProspectTeam("soccer", "women", 26, (), 20, 60),
)
TABLE = "sport,sex,position_group,athletes,games,practices\n"


def shown_by(pilot):
    assert isinstance(pilot.app.screen, PitchScreen), text(pilot)
    return pilot.app.screen


def asked_last(answer_source):
    what, _, options = answer_source.asked[-1]
    assert what == "pitch"
    return options


def an_effect():
    """A store in which both groups have injuries enough for an effect."""
    rows = (
        ("same session", "lower leg · G4 · attack", 12, 30, 900, 950, 1),
        ("same session", "lower leg · G6 · defence", 6, 14, 900, 910, 1),
        ("alike athletes", "soccer · attack · game · block 3", 18, 44, 1800, 1860, 1),
        ("crude", "all", 18, 44, 1800, 1860, 1),
    )
    return StandIn(frames(compare_strata=strata(rows)))


def reading(read, answer_source=None):
    """Open the screen on a board that reads tables with `read`."""
    maker, shown = SimpleNamespace(read_prospect=read), answer_source or StandIn()
    return running(SeasonboardApp(lambda: shown, screen="pitch", maker=maker))


# What it shows


@pytest.mark.long
async def test_the_season_ahead_of_the_sample_looks_as_agreed(sample_store):
    whole = {"departments": None, "kinds": ("shin",)}
    async with at_work(sample_store, "pitch", SMALL, **whole) as pilot:
        for width, height in (SMALL, LARGE, (200, 60)):
            await resize(pilot, width, height)
            check(text(pilot), f"pitch-sample-{width}x{height}")


def test_a_number_is_told_in_large_digits_and_one_without_such_digits_as_it_is():
    assert large("12") == ["╺┓ ╺━┓", " ┃ ┏━┛", "╺┻╸┗━╸"]
    assert large("1,204") == large("1204")
    assert large("no") == ["no"]


def test_a_page_tells_the_figures_of_the_answer_and_fits_every_paper():
    answer = an_effect().answered(
        PITCH, PitchOptions(weekly_per_print=85, currency="USD", printers=1)
    )
    assert answer.effect.ratio is not None
    for width in (58, 78, 118, 198):
        lines = lines_of(pitch_page(answer, Paper(width, 24)))
        assert all(cell_len(line) <= width for line in lines)
        shown = " ".join(" ".join(lines).split())
        assert "games kept" in shown
        assert "The two plans" in shown
        assert not {"None", "nan", "inf"} & set(shown.split())


def test_without_an_effect_no_number_is_said_to_be_kept():
    answer = StandIn().answered(PITCH, PitchOptions())
    shown = "\n".join(lines_of(pitch_page(answer, Paper(78, 24))))
    assert "promise no game kept" in " ".join(shown.split())
    assert "games kept" not in shown.split("The two plans")[0]
    assert "not shown yet: fewer than 11 injuries" in shown


async def test_the_key_shows_it_and_p_turns_pages_back_where_rows_are_open(pilot):
    await press(pilot, "p")
    screen = shown_by(pilot)
    await press(pilot, "enter")
    assert pilot.app.screen.query_one(DataTable).row_count > 0
    await press(pilot, "p")
    assert pilot.app.screen is not screen
    await press(pilot, "escape")
    assert pilot.app.screen is screen
    await press(pilot, "t", "f")
    assert NO_FILES.split(";")[0] in text(pilot), "this board cannot read tables"


async def test_a_team_opens_its_athletes_and_the_prospect_its_table(pitch, answer_source):
    await go_to(pitch, "team women's soccer")
    await press(pitch, "enter")
    what, scope, _ = answer_source.asked[-1]
    assert what == "athlete_rows"
    assert (scope.sports, scope.sexes) == (("soccer",), ("women",))
    await press(pitch, "escape")
    await go_to(pitch, "teams")
    await press(pitch, "enter")
    table = pitch.app.screen.query_one(DataTable)
    assert [str(cell).strip() for cell in table.get_row_at(1)] == [
        *("soccer", "women", "–", "26", "20", "60", "–", "–")
    ]


async def test_a_stopped_or_late_plan_leaves_the_last_one(pitch, answer_source):
    before = shown_by(pitch).answer
    answer_source.hold()
    shown_by(pitch).ask_with(PitchOptions(weeks=3))
    await until(pitch, lambda: answer_source.asked[-1][2] == PitchOptions(weeks=3))
    assert "asking" in state(pitch)
    await press(pitch, "x")
    assert shown_by(pitch).answer is before
    answer_source.let_go()
    await press(pitch, "r")
    assert shown_by(pitch).answer.options.weeks == 3


async def test_guards_for_a_return_are_not_planned_and_it_says_so(pitch, answer_source):
    pitch.app.scope = replace(answer_source.opening_scope(), purpose=View.RETURN)
    await settle(pitch)
    assert "not those for a return after an injury. Change “return” in the sentence" in words(pitch)
    assert "not answered" in state(pitch)


# The prospect's teams


@pytest.mark.long
async def test_teams_are_added_by_a_few_letters_changed_and_planned_with(pitch, answer_source):
    await press(pitch, "t", "a", *"ice", "enter", *"mi", "tab", *"24", "tab", *"30", "tab")
    await press(pitch, *"80", "ctrl+s")
    assert "mixed ice hockey" in text(pitch)
    await press(pitch, "ctrl+s")
    prospect = asked_last(answer_source).prospect
    assert prospect == Prospect((*SERVED, ProspectTeam("ice hockey", "mixed", 24, (), 30, 80)))
    assert "of the prospect" in words(pitch)
    await press(pitch, "t")
    assert "mixed ice hockey" in text(pitch), "it is kept while the board is open"
    await press(pitch, "a", *"quadball", "tab", *"wo", "tab", *"9", "tab", *"8", "tab")
    await press(pitch, *"7", "ctrl+s", "ctrl+s")
    unlisted = asked_last(answer_source).prospect.teams[-1]
    assert unlisted.sport == "quadball", "a sport that is not listed is taken as typed"
    await press(pitch, "t", "down", "enter")
    await fill(pitch, position_group="goalkeeper 3, defender 8")
    await press(pitch, "ctrl+s")
    assert "is not the 11 of the position groups together" in words(pitch)
    await fill(pitch, athletes="")
    await press(pitch, "ctrl+s", "ctrl+s")
    changed = asked_last(answer_source).prospect.teams[1]
    assert (changed.groups, changed.athletes) == ((("goalkeeper", 3), ("defender", 8)), 11)


@pytest.mark.parametrize(
    ("column", "typed", "part"),
    [
        ("athletes", "999", "is not a whole number from 1 to 250"),
        ("games", "many", "is not a whole number from 1 to 100"),
        ("practices", "", "is empty"),
        ("position_group", "goalkeepers", "has no number"),
        ("position_group", "a 1, A 2", "already stands"),
        ("sport", "lacrosse", "is women's too in line 1"),
        ("sport", "socer", "Did you mean “soccer”?"),
    ],
)
def test_what_cannot_be_a_team_is_told_of_its_field(column, typed, part):
    lacrosse, soccer = SERVED
    cells = {**typed_team(soccer), column: typed}
    if column == "position_group":
        cells["athletes"] = ""
    with pytest.raises(IntakeError) as refused:
        read_team(cells, sports=(), others=[lacrosse])
    (problem,) = refused.value.problems
    assert problem.column == column
    assert part in problem.sentence()


async def test_what_is_wrong_with_a_team_stands_under_its_field(pitch):
    await press(pitch, "t", "down", "enter")
    form = pitch.app.screen
    await fill(pitch, athletes="999", practices="", sport="socer")
    await press(pitch, "ctrl+s")
    assert pitch.app.screen is form
    assert "practices" in text(pitch)
    assert "is needed." in text(pitch)
    await fill(pitch, practices="60")
    await press(pitch, "ctrl+s")
    assert "“999” is not a whole number from 1 to 250" in words(pitch)
    assert "Did you mean “soccer”?" in words(pitch)


@pytest.mark.long
async def test_teams_begin_with_those_served_and_esc_asks_first(pitch, answer_source):
    await press(pitch, "t")
    assert isinstance(pitch.app.screen, TeamsScreen)
    assert "women's lacrosse" in text(pitch)
    for keys in (("ctrl+s",), ("t", "escape")):
        await press(pitch, *keys)
        shown_by(pitch)
        assert len(answer_source.asked) == 1, "the same teams are not asked about again"
    await press(pitch, "t", "minus")
    assert "Removed: women's lacrosse" in text(pitch)
    await press(pitch, "u", "escape")
    shown_by(pitch)
    await press(pitch, "t", "minus", "escape")
    assert LEAVING.split(".")[0] in text(pitch)
    await press(pitch, "down", "escape")
    assert isinstance(pitch.app.screen, TeamsScreen), "another key goes on"
    await press(pitch, "escape")
    shown_by(pitch)
    assert len(answer_source.asked) == 1
    await press(pitch, "t", "minus", "minus", "ctrl+s")
    assert NO_TEAM.split(":")[0] in text(pitch)
    await press(pitch, "o", "ctrl+s")
    assert len(answer_source.asked) == 1, "those served again: nothing has changed"


async def test_a_table_replaces_the_teams_and_u_brings_them_back(tmp_path):
    answer_source, path = StandIn(), tmp_path / "their teams.csv"
    path.write_text(TABLE + "Soccer,W,goalkeeper,3,18,60\nsoccer,w,defender,9,18,60\n", "utf-8")
    async with reading(read_prospect, answer_source) as pilot:
        await press(pilot, "t", "f")
        pilot.app.screen.query_one("#path", Input).value = f'"{path}"'
        await press(pilot, "enter")
        await until(pilot, lambda: "1 team of their teams.csv" in text(pilot))
        assert "goalkeeper 3, def" in text(pilot)
        await press(pilot, "u")
        assert "women's lacrosse" in text(pilot)
        await press(pilot, "f", "enter")
        await until(pilot, lambda: "1 team of their teams.csv" in text(pilot))
        await press(pilot, "ctrl+s")
        (team,) = asked_last(answer_source).prospect.teams
        assert team == ProspectTeam(
            "soccer", "women", 12, (("goalkeeper", 3), ("defender", 9)), 18, 60
        )


async def test_what_is_wrong_with_a_table_is_told_where_its_path_is_typed(tmp_path):
    wrong = ("athletes", "[/x]", "is no count.")
    problems = [Problem("their.csv", row, *wrong) for row in range(20)]
    refused = IntakeError("The prospect's table cannot be used: 20 problems.", problems)
    async with reading(Mock(side_effect=refused)) as pilot:
        await press(pilot, "t", "f")
        pilot.app.screen.query_one("#path", Input).value = str(tmp_path / "their.csv")
        await press(pilot, "enter")
        await until(pilot, lambda: "20 problems" in text(pilot))
        assert "their.csv, row 7, column athletes: “[/x]” is no count." in text(pilot)
        assert "… and 12 more." in text(pilot)
        await press(pilot, "escape", "escape")
        shown_by(pilot)


async def test_a_mistake_while_a_table_is_read_is_a_sentence(monkeypatch, tmp_path):
    monkeypatch.setattr("seasonboard.ui.app.bug_report._log", lambda: tmp_path / "failures.log")

    async with reading(Mock(side_effect=ZeroDivisionError)) as pilot:
        await press(pilot, "t", "f", "x", "enter")
        await until(pilot, lambda: "failed through a mistake" in text(pilot))
        assert "ZeroDivisionError" in (tmp_path / "failures.log").read_text("utf-8")


# What it is planned with


@pytest.mark.long
async def test_the_plan_is_typed_and_empty_is_as_recorded(pitch, answer_source):
    await press(pitch, "i")
    assert isinstance(pitch.app.screen, TakenForm)
    assert "empty: 50 %, assumed" in text(pitch)
    await press(pitch, "6", "0", "%", "tab", "1", "2", "tab", "5", *("tab",) * 3, "2", "tab")
    await press(pitch, "4", "0")
    await fill(pitch, printer_per_print="85.5", currency="USD", limits="peek-proof", seed="7")
    await press(pitch, "ctrl+s")
    machines = {"printers": 2, "printer_hours": 40, "weeks": 12, "seed": 7, "scan_before": 5}
    peek_proof = PitchOptions(limits=EffectLimits.PEEK_PROOF)
    assert asked_last(answer_source) == replace(
        peek_proof, take_up=0.6, printer_per_print=85.5, currency="USD", **machines
    )
    await press(pitch, "i", "ctrl+s")
    assert len(answer_source.asked) == 2, "the same plan is not asked about again"
    await press(pitch, "i")
    assert pitch.app.screen.query_one("#field-take_up", Input).value == "0.6"
    planned_with = ("take_up", "printer_per_print", "currency", "printers", "scan_before")
    planned_with += ("printer_hours", "weeks", "seed")
    await fill(pitch, **dict.fromkeys(planned_with, ""))
    await press(pitch, "ctrl+s")
    assert asked_last(answer_source) == peek_proof


async def test_what_comes_of_an_input_is_told_while_it_is_typed(pitch):
    await press(pitch, "i")
    before = words(pitch)
    assert "in the busiest week" in before
    assert "at most" in before
    await fill(pitch, prints_per_week="7")
    await until(pitch, lambda: "at most 7 prints a week" in words(pitch))
    await fill(pitch, prints_per_week="seven")
    assert "at most 7 prints a week" in words(pitch), "what cannot be read changes nothing yet"
    await press(pitch, "escape", "escape")
    shown_by(pitch)


async def test_a_release_is_shown_before_it_is_made_and_esc_makes_none(board, monkeypatch):
    figures = {"median": Figure("median", 12.0, 10.0, 15.0)}
    block = Block(
        "shin", "R01", MADE_ON, MADE_ON, 1, MaskedTable(CountTable(), frozenset()), figures
    )
    plan = ReleasePlan(Release("R01", MADE_ON, MADE_ON, (block,)), ("shin",))
    monkeypatch.setattr("seasonboard.releases.making.plan_release", lambda *_: plan)
    async with typing(board, "pitch") as pilot:
        for key in ("escape", "enter"):
            assert rows(board, "releases") == []
            await press(pilot, "F")
            await until(pilot, lambda: "The figures that outsiders would be told" in text(pilot))
            assert "shin, 1 department, new" in text(pilot)
            assert "12 (10 to 15)" in text(pilot)
            await press(pilot, key)
            await until(pilot, lambda: isinstance(pilot.app.screen, PitchScreen))
        assert [row["release"] for row in rows(board, "releases")] == ["R01"]
        assert "o shows the offer" in words(pilot)


async def test_a_release_of_a_store_that_is_read_only_is_shown_and_not_made(pitch):
    await press(pitch, "F")
    await settle(pitch)
    await press(pitch, "enter")
    assert not isinstance(pitch.app.screen, PitchScreen)
    await press(pitch, "escape")
    shown_by(pitch)


async def test_without_a_release_the_offer_says_how_to_make_one(board):
    async with typing(board, "pitch") as pilot:
        await press(pilot, "o")
        await until(pilot, lambda: "Nothing was released yet" in words(pilot))
        assert "on the board it is F on Pitch" in words(pilot)
        await press(pilot, "escape")
        shown_by(pilot)


@pytest.mark.long
async def test_the_offer_is_read_as_text_and_written_with_its_notes(
    sample_store, tmp_path, monkeypatch
):
    path = tmp_path / "season.store"
    shutil.copy(sample_store, path)
    release_shin(path)
    monkeypatch.chdir(tmp_path)
    with ExitStack() as stack:
        board = AnswerSource(stack.enter_context(open_store(path)), str(path))
        app = SeasonboardApp(lambda: board, screen="pitch", maker=StoreMaker(stack))
        async with running(app, size=LARGE) as pilot:
            await press(pilot, "o")
            await until(pilot, lambda: "does not say from whom" in words(pilot))
            await press(pilot, "w")
            await until(pilot, lambda: isinstance(pilot.app.screen, PitchScreen))
            assert "Written: " in words(pilot)
            await press(pilot, "o")
            await until(pilot, lambda: "does not say from whom" in words(pilot))
            await press(pilot, "w")
            await until(pilot, lambda: "is there already" in words(pilot))
    assert len(list(tmp_path.glob("*.html"))) == 2


@pytest.mark.parametrize(
    ("typed", "part"),
    [
        ({"take_up": "60"}, "“60” cannot be planned with; give a share from 0 to 1"),
        ({"take_up": "nan"}, "“nan” is not a number"),
        ({"weekly_monthly": "-1"}, "“-1” cannot be planned with; give a fee of 0 or more"),
        ({"printer_setup": "90"}, "is needed where a fee is given; write it as USD."),
        ({"printers": "1.5"}, "“1.5” is not a whole number"),
        ({"printers": "0"}, "give at least 1 printer"),
        ({"printer_hours": "60"}, "is needed where their hours are given"),
        ({"printer_hours": "999", "printers": "1"}, "at most 168"),
        ({"weeks": "99"}, "give weeks from 1 to 60"),
        ({"seed": "-3"}, "“-3” is not a whole number"),
    ],
)
def test_what_cannot_be_planned_with_is_told_of_its_field(typed, part):
    with pytest.raises(IntakeError) as refused:
        read_plan(typed, PitchOptions(), StandIn().opening_scope())
    assert part in refused.value.problems[0].sentence()


@pytest.mark.parametrize("size", [LARGE])
async def test_a_wrong_plan_is_told_under_its_field_and_esc_asks_first(pitch, answer_source):
    await press(pitch, "i", "6", "0", "ctrl+s")
    assert isinstance(pitch.app.screen, TakenForm)
    assert "“60” cannot be planned with; give a share from 0 to 1" in words(pitch)
    await press(pitch, "escape")
    assert isinstance(pitch.app.screen, TakenForm)
    await press(pitch, "escape")
    shown_by(pitch)
    assert len(answer_source.asked) == 1


@pytest.mark.parametrize(
    ("typed", "value"), [("0.6", 0.6), ("0,6", 0.6), (" 60 % ", 0.6), ("60%", 0.6), ("1", 1.0)]
)
def test_shares_are_read_as_people_write_them(typed, value):
    scope = StandIn().opening_scope()
    plan = read_plan({"take_up": typed}, PitchOptions(), scope)
    assert plan.take_up == pytest.approx(value)


# Saving


async def test_the_teams_are_saved_as_a_table_that_is_read_again(tmp_path, monkeypatch):
    monkeypatch.setattr(files, "_folder", lambda: tmp_path)
    prospect = Prospect(
        (
            ProspectTeam("=1+2 relay", "women", 12, (("goalkeeper", 3), ("defender", 9)), 18, 60),
            ProspectTeam("rowing", "men", 40, (), 9, 100),
        )
    )
    async with opened(screen="pitch") as pilot:
        shown_by(pilot).ask_with(PitchOptions(prospect))
        await settle(pilot)
        await press(pilot, "e")
        await choose(pilot, "the prospect's teams")
        await press(pilot, "enter")
        assert (await told(pilot)).startswith("Saved: the prospect's teams as CSV, to ")
    (path,) = list(tmp_path.glob("*"))
    assert read_prospect(path).teams == prospect.teams


@pytest.mark.long
async def test_the_offer_names_nobody_quotes_the_release_and_says_what_it_lacks(
    season, tmp_path, monkeypatch
):
    store = tmp_path / "mine.duckdb"
    store.write_bytes(season.read_bytes())
    release_shin(store)
    out = tmp_path / "out"
    out.mkdir()
    monkeypatch.setattr(files, "_folder", lambda: out)
    with ExitStack() as stack:
        board = AnswerSource(stack.enter_context(open_store(store)), str(store))
        app = SeasonboardApp(lambda: board, screen="pitch", maker=StoreMaker(stack))
        async with running(app, size=LARGE) as pilot:
            app.scope = replace(app.scope, kinds=("shin",), departments=("LF", "QM"))
            shown_by(pilot).options = PitchOptions(Prospect(SERVED), weeks=12)
            shown_by(pilot).action_ask()
            await settle(pilot)
            await press(pilot, "e")
            await choose(pilot, "the offer as a page")
            await press(pilot, "enter")
            assert "does not say from whom" in await told(pilot)
            assert not list(out.iterdir())
            for line, ending in (("the offer as a page", "html"), ("PDF, A4", "pdf")):
                await press(pilot, "e")
                await choose(pilot, line)
                await press(pilot, "enter")
                assert (await told(pilot)).startswith("Saved: the offer")
                assert [path.suffix for path in out.glob(f"*.{ending}")] == [f".{ending}"]
    page = next(out.glob("*.html"))
    assert page.name == f"{board.scope_values.last_day}_offer.html", "no client stands in the name"
    written = page.read_text("utf-8")
    assert not TELLING.search(written)
    assert "seasonboard handout proposal" in written
    assert "--teams … --weeks 12" in written


async def test_without_the_place_of_a_store_no_offer_can_be_saved(pitch):
    assert "offer" not in {one.word for one in shown_by(pitch).extra_files()}


def test_a_plan_is_told_by_the_options_that_the_command_takes():
    machines = {
        "printers": 2,
        "printer_hours": 40,
        "hours_per_print": 8,
        "weeks": 12,
        "seed": 7,
        "scan_before": 5,
    }
    limits = EffectLimits.PEEK_PROOF
    plan = PitchOptions(
        Prospect(SERVED), take_up=0.6, weekly_setup=85.0, currency="USD", limits=limits, **machines
    )
    names = {option for param in ask_command(PITCH).params for option in param.opts}
    typed = [each.split(" ") for each in as_typed(plan)]
    assert {name for name, _ in typed} <= names
    assert len(typed) == 11
    assert as_typed(PitchOptions()) == ()
