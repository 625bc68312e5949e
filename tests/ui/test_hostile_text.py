"""Text from the data is shown letter for letter, does nothing, and keeps columns in line."""

import unicodedata
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from seasonboard.scope import KnownValue
from seasonboard.ui.layout.format import cell, clean, fit, right, wrap
from tests.ui.board import opened, press, text
from tests.ui.stand_in import HOSTILE, StandIn, known

EVERYTHING = st.text(st.characters(codec=None), max_size=40)


@given(EVERYTHING)
def test_cleaned_text_holds_nothing_that_acts_on_a_terminal(raw):
    shown = clean(raw)
    assert not {unicodedata.category(letter) for letter in shown} & {"Cc", "Cf", "Cs", "Zl", "Zp"}
    assert clean(shown) == shown


def test_control_codes_become_visible_and_marks_that_turn_the_writing_are_dropped():
    assert clean("a\x1b[31mb\nc\x7f\x9b") == "a␛[31mb␊c␡�"
    assert clean("Lee\u202eeeL\u2066\u200b") == "LeeeeL"


@given(EVERYTHING.map(clean), st.integers(0, 30))
def test_fitted_text_has_exactly_its_width(shown, width):
    assert cell_len(fit(shown, width)) == width
    assert cell_len(right(shown, width)) == width


@given(st.text(max_size=80).map(clean), st.integers(2, 30))
def test_wrapped_text_keeps_every_letter_and_its_width(shown, width):
    lines = wrap(shown, width)
    assert all(cell_len(line) <= width for line in lines)
    assert "".join("".join(lines).split()) == "".join(shown.split())


def test_cells_say_nothing_as_a_dash_and_round_figures():
    assert [cell(None), cell(3), cell(-1.256), cell("x\ty")] == ["–", "3", "−1.26", "x␉y"]


async def test_names_stand_in_tables_letter_for_letter(pilot):
    await press(pilot, "enter")
    shown = text(pilot)
    for name in HOSTILE:
        assert clean(name) in shown
    rows = [line for line in shown.splitlines() if any(clean(n) in line for n in HOSTILE)]
    assert len(rows) == len(HOSTILE)
    ends = {cell_len(line) for line in rows}
    assert len(ends) == 1, "wide letters push the column of figures out of line"


async def test_names_stand_in_sentence_and_lists_letter_for_letter():
    store = known()
    teams = tuple(KnownValue(f"T{number}", name) for number, name in enumerate(HOSTILE))
    store = replace(store, values={**store.values, "team": teams})
    for place in HOSTILE[:2]:
        async with opened(StandIn(scope_values=store, store_label=place)) as pilot:
            assert place in text(pilot).splitlines()[3]
    async with opened(StandIn(scope_values=store)) as pilot:
        await press(pilot, "s", "right", "enter")
        assert all(clean(name) in text(pilot) for name in HOSTILE)
        await press(pilot, "escape")
        for number, name in enumerate(HOSTILE):
            pilot.app.scope = replace(pilot.app.scope, teams=(f"T{number}",))
            await press(pilot)
            assert clean(name).casefold() in text(pilot).casefold()
