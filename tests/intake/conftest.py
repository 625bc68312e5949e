"""Desks with and without the small season on them."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from seasonboard.store.intake.plan import LoadPlan
from seasonboard.store.intake.write import write_load
from seasonboard.store.store import Store
from tests.intake.desk import SMALL_SEASON, Desk, Source
from tests.one_reader import one_reader  # noqa: F401 - a fixture
from tests.reused import ReusedStore


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with ReusedStore() as store:
        yield Desk(tmp_path / "desk", store)


@pytest.fixture
def season(desk: Desk) -> Desk:
    """Return a desk with the small season on it, not yet loaded."""
    desk.season_with()
    return desk


@pytest.fixture(scope="session")
def small_plan(tmp_path_factory: pytest.TempPathFactory) -> LoadPlan:
    """Return the plan of the small season for an empty store."""
    with ReusedStore() as store:
        desk = Desk(tmp_path_factory.mktemp("season") / "desk", store)
        desk.season_with()
        plan = desk.plan()
        assert plan.notes == ()
        return plan


@pytest.fixture(scope="session")
def loaded_store(small_plan: LoadPlan) -> Iterator[Store]:
    with ReusedStore() as store:
        write_load(store, small_plan)
        yield store


@pytest.fixture
def loaded(loaded_store: Store, tmp_path: Path) -> Desk:
    """Return an empty desk beside a store that holds the small season, for planning only."""
    return Desk(tmp_path / "desk", loaded_store, shared=True)


@pytest.fixture
def own(desk: Desk, small_plan: LoadPlan) -> Desk:
    """Return an empty desk beside a store of its own that holds the small season."""
    write_load(desk.store, small_plan)
    return desk


@pytest.fixture
def small_season() -> dict[str, str]:
    return dict(SMALL_SEASON)


@pytest.fixture
def source(loaded: Desk, tmp_path: Path) -> Source:
    return Source(loaded, tmp_path / "s.duckdb")
