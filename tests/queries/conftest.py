"""A season drawn by a test, loaded."""

from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

from seasonboard.store.store import Store
from tests.queries.build import Season, drawn


@pytest.fixture
def load(tmp_path: Path) -> Iterator[Callable[..., Store]]:
    """Load a `Season` into a store in memory that lives as long as the test."""
    stores: list[Store] = []
    numbers = count()

    def load_it(season: Season) -> Store:
        stores.append(season.load(tmp_path / f"tables-{next(numbers)}"))
        return stores[-1]

    yield load_it
    for store in stores:
        store.close()


@pytest.fixture
def season(load: Callable[..., Store]) -> Callable[..., Store]:
    """Draw and load: `season("A B\\nG1 . g!")`."""

    def load_it(grid: str, **cells: object) -> Store:
        return load(drawn(grid, **cells))

    return load_it
