"""Text is data: kept letter for letter, except what would steer a terminal or reorder a line."""

import pytest

from seasonboard.store.intake.plan import LoadPlan
from tests.intake.desk import Desk

HEADER = "athlete,team,season,name\n"


def names(plan: LoadPlan) -> dict[str, str]:
    rows = plan.rows["roster"].sort("athlete")
    return dict(rows.select("athlete", "name").iter_rows())


def roster(*cells: str) -> bytes:
    rows = [f"B{place},T1,2026,{cell}\n" for place, cell in enumerate(cells, 1)]
    return (HEADER + "".join(rows)).encode()


MARKUP = {
    '"[bold]Ana[/]"': "[bold]Ana[/]",
    '"[/]"': "[/]",
    '"Kim [/dev]"': "Kim [/dev]",
    '"[QB] Lee"': "[QB] Lee",
    '"[red"': "[red",
    '"Sam \\"': "Sam \\",
    '"[1, ""3""]"': '[1, "3"]',
    "=1+1": "=1+1",
    "None Okafor": "None Okafor",
    "NULL": "NULL",
}


@pytest.mark.parametrize("written", MARKUP)
def test_names_that_look_like_markup_or_code_stay_letter_for_letter(loaded, written) -> None:
    plan = loaded.plan(roster=roster(written))
    assert names(plan) == {"B1": MARKUP[written]}
    assert plan.notes == ()


WIDE = ["李小龙", "김민준", "Zoe\u0308", "👍🏽 Rae", "מיכל", "ＡＢ", "👩\u200d🚀 Jo"]


@pytest.mark.parametrize("name", WIDE)
def test_wide_letters_joined_signs_and_combining_marks_stay(loaded: Desk, name: str) -> None:
    plan = loaded.plan(roster=roster(name))
    assert names(plan) == {"B1": name}
    assert plan.notes == ()


STEERING = {
    "\x1b]52;c;cm0gLXJm\x07Ana": "]52;c;cm0gLXJmAna",
    "\u009b31mBo": "31mBo",
    "Cy\u202enarT": "CynarT",
    '"Di\nFox"': "Di Fox",
    "Ed\u2028Ito": "EdIto",
    "Fa\tYu": "Fa Yu",
    "Gu\x00y": "Guy",
    "\u2066Hal\u2069": "Hal",
    "Jo\u200e Kay\u200f": "Jo Kay",
    "Mo\x7f Ray": "Mo Ray",
}


@pytest.mark.parametrize("written", STEERING)
def test_steering_characters_are_taken_out_and_told(loaded: Desk, written: str) -> None:
    plan = loaded.plan(roster=roster(written))
    assert names(plan) == {"B1": STEERING[written]}
    (note,) = plan.notes
    assert (note.file, note.row, note.column) == ("roster.csv", 2, "name")
    assert note.value == STEERING[written]


def test_ten_cells_to_clean_give_ten_notes(loaded: Desk) -> None:
    plan = loaded.plan(roster=roster(*STEERING))
    assert [note.row for note in plan.notes] == list(range(2, 12))


def test_thousands_of_cleaned_cells_are_counted_not_listed(loaded: Desk) -> None:
    plan = loaded.plan(roster=roster(*["A\tB"] * 500))
    assert len(plan.notes) == 101
    assert any("400 more cells" in note.expected for note in plan.notes)


def test_cleaned_text_loaded_again_changes_nothing(own: Desk) -> None:
    own.load(roster=roster("\x1b[1mAna", '"Di\nFox"'))
    plan = own.plan()
    assert plan.is_empty


def test_outer_blanks_even_unseen_ones_are_trimmed(loaded: Desk) -> None:
    cells = ["\u00a0Ana ", "Bo\u200b", "\ufeff Cy \u3000"]
    assert list(names(loaded.plan(roster=roster(*cells))).values()) == ["Ana", "Bo", "Cy"]


def test_a_cell_of_blanks_is_missing(loaded: Desk) -> None:
    plan = loaded.plan(roster=HEADER.replace("name", "name,jersey") + "B1,T1,2026,Ana, \u00a0\n")
    assert plan.rows["roster"]["jersey"].to_list() == [None]


def test_keys_keep_their_leading_zeros(own: Desk) -> None:
    own.load(roster=HEADER + "007,T1,2026,Ana\n7,T1,2026,Bo\n")
    assert {"007", "7"} <= set(own.store.read("store/roster")["athlete"])
