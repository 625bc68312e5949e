"""Exports are safe in a spreadsheet and load back as they were."""

import csv
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.store.intake.cleaning import guarded, without_guard
from seasonboard.store.intake.export import write_tables
from seasonboard.store.intake.plan import plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import memory_store
from tests.intake.desk import Desk

FORMULAS = [
    '=HYPERLINK("http://127.0.0.1/x","open")',
    "@team",
    "+1 knee",
    "-pain",
    "=1+1",
    "'=1+1",
    "''@x",
    "-3",
    "+2.5",
    "＝1+1",
    "'＠x",
]


def test_no_formula_lives_in_an_export_and_all_of_it_loads_back(own: Desk, tmp_path: Path) -> None:
    with memory_store() as store:
        rows = "".join(
            f'X{place},2026-09-08,"{text.replace(chr(34), chr(34) * 2)}"\n'
            for place, text in enumerate(FORMULAS)
        )
        own.put(decisions="decision,decided_on,text\n" + rows)
        write_load(store, plan_load(store, [own.folder]))
        files = write_tables(store, tmp_path / "export")
        (file,) = [one.file for one in files if one.table == "decisions"]
        cells = [row[3] for row in csv.reader(file.read_text("utf-8").splitlines())][1:]
        live = [one for one in cells if one[:1] in "=+-@" and one not in {"-3", "+2.5"}]
        assert live == []
        assert plan_load(store, [tmp_path / "export"]).is_empty
        with memory_store() as other:
            write_load(other, plan_load(other, [tmp_path / "export"]))
            assert other.read("store/decisions").equals(store.read("store/decisions"))


@settings(max_examples=200)
@given(text=st.text(st.sampled_from("'=+-@1.a ,＝＠"), min_size=1))
def test_what_is_guarded_is_given_back_letter_for_letter(text: str) -> None:
    import polars as pl

    frame = pl.DataFrame({"text": [text]})
    safe = guarded(frame)
    assert without_guard(safe).equals(frame)
    number = text.lstrip("+-").replace(",", ".", 1).replace(".", "", 1).isdigit()
    assert safe["text"][0][0] not in "=@"
    assert safe["text"][0][0] not in "+-" or number


@pytest.mark.parametrize("text", ["-3", "-2.5", "+4", "O'Brien", "'s-Gravenhage", "a=b"])
def test_numbers_and_plain_text_stay_as_they_are(text: str) -> None:
    import polars as pl

    frame = pl.DataFrame({"text": [text]})
    assert guarded(frame).equals(frame)
