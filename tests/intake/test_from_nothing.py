"""From nothing to an open board: three ugly exports, through the real command."""

from datetime import date

import pytest

from seasonboard.store.intake.export import export_tables
from seasonboard.store.store import open_store
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.wiring import open_board
from tests.intake.ugly import PLAYERS, write_ugly


@pytest.fixture(scope="module")
def loaded_from_nothing(run, tmp_path_factory):
    """Load the three; the workbook and the injuries ask nothing, the attendance one thing."""
    folder = tmp_path_factory.mktemp("ugly")
    store = folder / "season.store"
    set_up, attendance, injuries = write_ugly(folder / "exports")

    def load(path, *answer):
        return run("load", path, "--store", store, "--yes", *answer)

    done = load(set_up)
    assert done.status == 0, done.err
    assert "is a totals line" in done.out
    assert "1 hidden sheet was left out: old list" in done.out
    asked = load(attendance)
    assert asked.status == 2
    assert "they match without leading zeros. write it so" in asked.err.casefold()
    done = load(attendance, "--accept-likely")
    assert done.status == 0, done.err
    done = load(injuries)
    assert done.status == 0, done.err
    assert "day/month/year, as the months of the season show" in done.out
    return store, folder / "exports"


@pytest.fixture(scope="module")
def tables(loaded_from_nothing):
    with open_store(loaded_from_nothing[0]) as store:
        return export_tables(store)


@pytest.mark.long
def test_every_row_is_there_and_means_what_was_written(tables):
    assert tables["departments"].select("department", "plan", "prints_per_week").row(0) == (
        "ELM", "weekly allotment", 8,
    )  # fmt: skip
    assert tables["roster"].sort("athlete")["name"].to_list() == list(PLAYERS)
    assert tables["roster"]["joined_on"].unique().to_list() == [date(2026, 8, 12)]
    sessions = tables["sessions"].sort("session")
    assert sessions["setting"].to_list() == ["game", "practice", "game", "practice"]
    assert sessions["label"][0] == "vs Oxbow 1"
    assert str(sessions["starts_at"][0]) == "2026-09-08 23:30:00+00:00"  # 18:30 in Chicago
    parts = tables["attendance"]["part"].value_counts().sort("part").rows()
    assert parts == [("full", 8), ("limited", 8), ("out", 8)]
    assert tables["attendance"]["athlete"].str.starts_with("00").all()
    assert tables["attendance"]["minutes"].drop_nulls().unique().to_list() == [62.5]


def test_days_sides_and_notes_of_injuries_are_read_as_they_were_meant(tables):
    found = tables["injuries"].sort("athlete").select("occurred_on", "area", "side", "note").rows()
    assert found == [
        (date(2026, 10, 3), "lower leg", "left", "came off,\niced at once"),
        (date(2026, 9, 11), "knee", "right", "=1+1"),
        (date(2026, 10, 5), "hand", "left", "n/a"),
    ]


def test_the_same_exports_again_ask_nothing_and_change_nothing(run, loaded_from_nothing):
    """Next week's command: mappings are kept, the answers too."""
    store, exports = loaded_from_nothing
    for name in ("Elmcrest set-up.xlsx", "injury log.csv"):
        done = run("load", exports / name, "--store", store, "--yes")
        assert done.status == 0, done.err
        assert "rows are there already." in done.out


async def test_the_board_opens_on_it_and_names_who_was_out(loaded_from_nothing):
    with open_board(loaded_from_nothing[0]) as board:
        app = SeasonboardApp(lambda: board, screen="roster")
        async with app.run_test(size=(100, 30)) as pilot:
            for _ in range(100):
                await pilot.pause(0.05)
                if "Søren-Mae" in (text := shown(app)):
                    break
        assert "Zoë Nuñez" in text
        assert isinstance(board.scope_values.sessions, int) and board.scope_values.sessions == 4


def shown(app):
    return "\n".join(
        "".join(s.text for s in line) for line in app.screen._compositor.render_strips()
    )
