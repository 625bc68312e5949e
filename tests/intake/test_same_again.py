"""The same data, however it is written, changes nothing."""

import csv
import io
from collections.abc import Callable
from itertools import product
from pathlib import Path
from tempfile import TemporaryDirectory

import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seasonboard.sample import write_season
from seasonboard.store.catalogue import catalogue
from seasonboard.store.intake.export import export_tables
from seasonboard.store.intake.plan import LoadPlan, plan_load
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import Store
from seasonboard.stored_tables import TABLES
from tests.deep import tries
from tests.intake.desk import Desk
from tests.reused import ReusedStore


def only_same(plan: LoadPlan) -> bool:
    return all((one.new, one.changed) == (0, 0) for one in plan.tables) and plan.is_empty


def test_the_same_files_twice_change_nothing(loaded: Desk, small_season: dict[str, str]) -> None:
    plan = loaded.plan(**small_season)
    assert only_same(plan)
    assert [one.same for one in plan.tables if one.table == "attendance"] == [5]
    assert plan.changes.height == 0


def _written(text: str, **how: object) -> str:
    out = io.StringIO()
    csv.writer(out, **how).writerows(csv.reader(io.StringIO(text)))
    return out.getvalue()


def _capitals(text: str) -> str:
    header, _, rest = text.partition("\n")
    return f"{header.upper()}\n{rest}"


def _blank_rows(text: str) -> str:
    return text + "\n" + "," * text.partition("\n")[0].count(",") + "\n"


LOOKS: dict[str, Callable[[str], bytes]] = {
    "quoted": lambda text: _written(text, quoting=csv.QUOTE_ALL).encode(),
    "capitals": lambda text: _capitals(text).encode(),
    "blank rows": lambda text: _blank_rows(text).encode(),
}
WRITINGS = {
    f"{mark!r} {end!r} {encoding}": lambda text, how=(mark, end, encoding): _written(
        text, delimiter=how[0], lineterminator=how[1]
    ).encode(how[2])
    for mark, end, encoding in product(
        ",;\t", ("\n", "\r\n"), ("utf-8", "utf-8-sig", "utf-16", "cp1252")
    )
}


@pytest.mark.parametrize(
    "look", [*LOOKS, *(pytest.param(one, marks=pytest.mark.long) for one in WRITINGS)]
)
def test_another_look_of_the_same_files_changes_nothing(loaded, small_season, look) -> None:
    for name, text in small_season.items():
        loaded.put(**{name: (LOOKS | WRITINGS)[look](text)})
    assert only_same(loaded.plan())


@settings(max_examples=tries(4))
@given(data=st.data())
def test_rows_and_columns_in_any_order_change_nothing(loaded_store, data) -> None:
    name = data.draw(st.sampled_from(sorted(set(TABLES) - {"kinds"})))
    frame = export_tables(loaded_store)[name]
    columns = data.draw(st.permutations(frame.columns))
    order = data.draw(st.permutations(range(frame.height)))
    with TemporaryDirectory() as folder:
        frame[list(order)].select(columns).write_csv(Path(folder) / f"{name}.csv")
        plan = plan_load(loaded_store, [Path(folder)])
    assert only_same(plan)
    assert [one.same for one in plan.tables] == [frame.height]


def test_rows_in_any_order_make_the_same_store(season: Desk, small_season: dict[str, str]) -> None:
    """The first load is the same store, whatever the order of its files' rows."""
    season.load()
    for name, text in small_season.items():
        header, *rows = text.splitlines()
        season.put(**{name: "\n".join([header, *reversed(rows)])})
    with ReusedStore() as other:
        write_load(other, plan_load(other, [season.folder]))
        for name in ("athletes", "sessions", "guards", "attendance", "wear"):
            sql = f"FROM store.{name} ORDER BY ALL"
            mine = season.store._connection.execute(sql).fetchall()
            assert other._connection.execute(sql).fetchall() == mine


def test_what_is_exported_is_all_the_same_and_makes_the_same_store_again(loaded: Desk) -> None:
    first = export_tables(loaded.store)
    for name, frame in first.items():
        frame.write_csv(loaded.folder / f"{name}.csv")
    plan = loaded.plan()
    assert only_same(plan)
    assert {one.table: one.same for one in plan.tables} == {
        name: frame.height for name, frame in first.items()
    }
    with ReusedStore() as other:
        write_load(other, plan_load(other, [loaded.folder]))
        second = export_tables(other)
    assert [name for name, frame in first.items() if not frame.equals(second[name])] == []


def test_an_export_has_the_columns_of_each_table(loaded: Desk) -> None:
    for name, frame in export_tables(loaded.store).items():
        assert frame.columns == TABLES[name].names
        assert frame.schema == pl.Schema(TABLES[name].frame_types)


def test_the_sample_season_loads_without_a_word_and_only_once(tmp_path: Path) -> None:
    write_season(tmp_path / "sample", size=0.2)
    with ReusedStore() as store:
        plan = plan_load(store, [tmp_path / "sample"])
        assert plan.notes == ()
        write_load(store, plan)
        assert only_same(plan_load(store, [tmp_path / "sample"]))


def test_every_stored_table_is_told_with_the_columns_of_its_header(loaded_store: Store) -> None:
    for name, table in TABLES.items():
        assert list(catalogue()[f"store/{name}"].columns) == table.names
