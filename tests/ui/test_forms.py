"""Records typed in on the board, by keys alone."""

from datetime import date

import pytest
from textual.events import Key
from textual.widgets import Input

from seasonboard.ui.board.board_screen import BoardScreen
from seasonboard.ui.forms.all_forms import BY_NAME, FORMS
from seasonboard.ui.forms.draw_form import DRAW
from seasonboard.ui.forms.read_only import NotKept
from seasonboard.ui.log.menu import LogMenu
from tests.ui.board import check, fill, go_to, press, settle, text
from tests.ui.kept import NOW, rows, typing


def one(board, table, key, value):
    """Return the only row with that key."""
    (row,) = [row for row in rows(board, table) if row[key] == value]
    return row


def field(pilot, column):
    return pilot.app.screen.query_one(f"#field-{column}", Input).value


INJURY = ("l", "i", *"zoe", "tab", "tab", "tab", *"low", "tab", *"le", "tab", *"ye", "tab")


@pytest.mark.long
async def test_an_injury_is_typed_in_a_few_letters_each_and_answers_are_asked_anew(board):
    async with typing(board, "week") as pilot:
        seen = pilot.app.screen.answer
        await press(pilot, *INJURY, *"bon", "enter", *"bone", "down", "tab", "ctrl+s")
        shown = text(pilot)
        check(shown, "form-injury-80x24")
        assert "Recorded as worn at this site in that session: G0041 (shin, left)." in shown
        assert len(rows(board, "injuries")) == 1
        await press(pilot, "ctrl+s")
        assert isinstance(pilot.app.screen, BoardScreen)
        assert "written as load 2: injury, Zoë Abbott" in text(pilot)
        assert "u takes it back" in text(pilot)
        assert pilot.app.screen.answer is not seen
        assert pilot.app.scope.through == date(2026, 9, 3)
        assert any("Zoë" in str(row) for row in pilot.app.screen.answer.item("injuries").rows)
    row = one(board, "injuries", "injury", "I8")
    assert (row["athlete"], row["occurred_on"], row["session"]) == ("A1", date(2026, 9, 3), "G2")
    assert (row["area"], row["side"], row["tissue"]) == ("lower leg", "left", "bone")
    assert row["pathology"] == "bone contusion"
    assert board.entry_writer.last().labels == ("injury, Zoë Abbott, lower leg, left, 2026-09-03",)


@pytest.mark.long
async def test_what_the_intake_refuses_is_told_under_its_field(board):
    async with typing(board, "orders") as pilot:
        await press(pilot, *INJURY, "ctrl+s")
        await fill(pilot, occurred_on="2026-13-40", reported_on="1 Sep 2026")
        await press(pilot, "ctrl+s")
        shown = text(pilot).splitlines()
        at = next(n for n, line in enumerate(shown) if "2026-13-40" in line)
        assert "“2026-13-40”" in shown[at + 1]
        assert pilot.app.screen.focused.id == "field-occurred_on"
        assert len(rows(board, "injuries")) == 1
        await fill(pilot, occurred_on="2026-09-09", reported_on="2026-09-03")
        await press(pilot, "ctrl+s")
        assert "lies before occurred_on" in text(pilot)  # told under “reported”, and goes with it
        await fill(pilot, occurred_on="2026-09-02")
        await press(pilot, "ctrl+s", "ctrl+s")
        assert isinstance(pilot.app.screen, BoardScreen), text(pilot)


@pytest.mark.long
async def test_letters_and_keys_that_come_in_one_burst_go_where_they_were_meant(board):
    """As over a slow line: no list has come yet when Tab and Enter do."""
    async with typing(board, "orders") as pilot:
        await press(pilot, "l", "i")
        for key in (*"zoe", "tab", "tab", "tab", *"kn", "tab", *"ri", "tab"):
            pilot.app.post_message(Key(key, key if len(key) == 1 else None))
        await settle(pilot)
        found = [field(pilot, one) for one in ("athlete", "area", "side", "tissue")]
        assert found == ["Zoë Abbott", "knee", "right", ""]
        await press(pilot, "home", "escape", "escape")
        await press(pilot, "l", "i")
        for key in (*"bo", "enter"):
            pilot.app.post_message(Key(key, key if len(key) == 1 else None))
        await settle(pilot)
        assert "“bo” fits 3 lines; choose one" in text(pilot)  # none was taken unseen


@pytest.mark.long
async def test_what_follows_from_an_athlete_is_proposed_and_several_that_fit_are_not_guessed(board):
    async with typing(board, "orders") as pilot:
        await press(pilot, "l", "i", *"zoe", "tab")
        assert (field(pilot, "occurred_on"), field(pilot, "session")) == ("2026-09-03", "G2")
        await press(pilot, "2", "0", "tab")
        assert field(pilot, "session") == ""  # no session is on “20…”
        await press(pilot, "escape", "escape", "l", "i", *"reyes", "tab")
        assert "fits 2 lines; choose one with ↑ ↓ and ↵" in text(pilot)
        await press(pilot, "shift+tab")
        assert "Bo [/x] Reyes" in text(pilot), "markup in names is text"
        await press(pilot, "down", "enter")
        assert field(pilot, "athlete") in {"Bo [/x] Reyes", "Bo Reyes"}
        await press(pilot, *"xyzzy", "tab", "escape", "escape")


async def test_typing_replaces_what_was_put_in_from_the_list(board):
    async with typing(board) as pilot:
        await press(pilot, "l", "i", "down")
        assert len(field(pilot, "athlete")) > 2
        await press(pilot, *"bo")
        assert field(pilot, "athlete") == "bo"


async def test_needed_fields_are_named_and_leaving_asks_once_when_something_was_typed(board):
    async with typing(board, "orders") as pilot:
        await press(pilot, "l", "i", "ctrl+s")
        assert text(pilot).count("is needed.") == 3  # athlete, day, area
        assert board.entry_writer.last().load_no == 1
        await press(pilot, "escape", "l", "d", "escape")
        assert isinstance(pilot.app.screen, BoardScreen)
        await press(pilot, "l", "d", *"Spare", "escape")
        assert "is not saved" in text(pilot)
        await press(pilot, *"s", "escape")
        assert "is not saved" in text(pilot)
        assert field(pilot, "text") == "Spares"
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, BoardScreen)
        await press(pilot, "l", "d", *"Spare", "ctrl+q")
        assert "is not saved" in text(pilot)
        assert pilot.app.is_running


@pytest.mark.long
async def test_a_stage_is_one_key_on_the_orders_screen_and_a_doubt_is_shown_first(board):
    async with typing(board, "orders") as pilot:
        await go_to(pilot, "order G0041")
        await press(pilot, "space")
        await fill(pilot, reached_at="2026-08-01T09:00")
        await press(pilot, "ctrl+s")
        assert "^s again saves it so" in text(pilot)
        assert len(rows(board, "stages")) == 2
        await press(pilot, "ctrl+s")
        assert len(rows(board, "stages")) == 3


async def test_a_stage_is_reached_now_where_the_department_is(board):
    async with typing(board, "orders") as pilot:
        await go_to(pilot, "order G0041")
        await press(pilot, "space")
        assert field(pilot, "stage") == "modelled"
        assert field(pilot, "reached_at") == "2026-09-03T20:30"  # Chicago
        await press(pilot, "ctrl+s")
        assert isinstance(pilot.app.screen, BoardScreen)
        assert pilot.app.screen.answer.orders[0].stage == "modelled"
    (row,) = [row for row in rows(board, "stages") if row["stage"] == "modelled"]
    assert row["reached_at"] == NOW.replace(tzinfo=row["reached_at"].tzinfo)


@pytest.mark.long
async def test_a_new_order_has_the_next_number_and_never_overwrites_one_that_is_there(board):
    new = ("l", "o", *"abb", "tab", "tab", "tab", *"thi", "tab", *"ri", "tab")
    async with typing(board, "orders") as pilot:
        await press(pilot, *new)
        assert (field(pilot, "guard"), field(pilot, "purpose")) == ("G0042", "preventive")
        await fill(pilot, guard="G0041")
        await press(pilot, "ctrl+s")
        assert "is recorded already; nothing was written." in text(pilot)
        assert one(board, "guards", "guard", "G0041")["kind"] == "shin"
        await press(pilot, "escape", "escape", *new, "ctrl+s")
    made = one(board, "guards", "guard", "G0042")
    assert (made["athlete"], made["kind"], made["side"]) == ("A1", "thigh", "right")
    assert one(board, "stages", "guard", "G0042")["stage"] == "requested"


@pytest.mark.long
async def test_a_return_an_offer_its_answer_a_decision_its_end_and_a_session(board):
    async with typing(board, "orders") as pilot:
        await press(pilot, "l", "r", *"bo", "tab", "ctrl+s")
        await press(pilot, "l", "p", *"zoe", "tab", *"wri", "tab", "ctrl+s")
        await press(pilot, "l", "w", *"wri", "tab", *"acc", "tab", "ctrl+s")
        await press(pilot, "l", "d", *"Spares", "tab", *"coll", "tab", "ctrl+s")
        assert isinstance(pilot.app.screen, BoardScreen)
        await press(pilot, "l", "x", *"spa", "tab", "ctrl+s")
        assert isinstance(pilot.app.screen, BoardScreen)
        await press(pilot, "l", "s", "T", "tab", "tab", *"pr", "tab", "ctrl+s")
        assert isinstance(pilot.app.screen, BoardScreen), text(pilot)
    assert one(board, "injuries", "injury", "I7")["returned_on"] == date(2026, 9, 3)
    (offer,) = rows(board, "offers")
    assert (offer["athlete"], offer["kind"], offer["answer"]) == ("A1", "wrist", "accepted")
    (decision,) = rows(board, "decisions")
    assert (decision["decision"], decision["department"]) == ("D01", "D")
    assert decision["decided_on"] == decision["done_on"] == date(2026, 9, 3)
    held = one(board, "sessions", "session", "G3")
    assert (held["season"], held["setting"]) == ("2026", "practice")


async def test_the_sample_season_says_that_it_is_not_written_to(board):
    board._entry_writer = None
    async with typing(board, "orders") as pilot:
        await go_to(pilot, "order G0041")
        for keys, shown in ((("space",), NotKept), (("l", "i"), LogMenu)):
            await press(pilot, *keys)
            assert isinstance(pilot.app.screen, shown)
            assert "is not written to" in text(pilot)
            await press(pilot, "escape")


@pytest.mark.long
async def test_nothing_is_typed_in_behind_the_curtain_and_no_name_stays_in_sight(board):
    async with typing(board, "orders") as pilot:
        await press(pilot, *INJURY, "ctrl+s", "ctrl+s")
        assert "Zoë" in text(pilot)
        await press(pilot, "c")
        assert "Zoë" not in text(pilot)
        for keys in (("l", "i"), ("l", "f"), ("space",)):
            await press(pilot, *keys)
            assert "The curtain is down" in text(pilot)
            await press(pilot, "f", "escape")


@pytest.mark.long
@pytest.mark.parametrize("size", [(60, 15), (120, 40)])
async def test_every_form_fits_and_opens_by_its_key(board, size):
    async with typing(board, size=size) as pilot:
        for form in FORMS:
            await press(pilot, "l", form.key)
            others = {"files": "Load files", "draw": DRAW.title}
            title = BY_NAME[form.name].title if form.name in BY_NAME else others[form.name]
            assert title in text(pilot).splitlines()[0]
            assert all(len(line) <= size[0] for line in text(pilot).splitlines())
            await press(pilot, "escape")


@pytest.mark.long
async def test_a_question_is_fixed_with_its_day_never_changed_and_told_when_taken_back(board):
    async with typing(board, "compare") as pilot:
        await press(pilot, "l", "k", *"shin", "tab")
        check(text(pilot), "form-question-80x24")
        await press(pilot, "ctrl+s")
        (row,) = rows(board, "questions")
        assert (row["kind"], row["asked_on"], row["area"]) == ("shin", date(2026, 9, 3), None)
        assert (row["outcome"], row["comparison"]) == ("time loss", "same session")
        said = pilot.app.screen.answer.summary.caveats
        assert any("fixed on 2026-09-03, not before the first session" in one for one in said)
        await press(pilot, "l", "k", *"shin", "tab")
        await fill(pilot, outcome="any")
        await press(pilot, "ctrl+s")
        assert "A fixed question never changes" in " ".join(text(pilot).split())
        await press(pilot, "escape", "escape", "u")
        assert "1 question fixed in advance goes" in text(pilot)
