"""A board over a season drawn by a test."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from seasonboard.answers.source import AnswerSource
from seasonboard.scope import read_scope
from seasonboard.store.store import Store, open_store
from tests.answers.edges import EDGES
from tests.queries.build import Season, day, drawn

pytest.register_assert_rewrite("tests.answers.reading_worked")
KEPT = 12
"""Seasons whose stores are kept from one test to the next."""


@pytest.fixture(scope="session")
def stores() -> Iterator[dict[str, Store]]:
    """Keep the stores of the last few seasons by what is in them: tests of answers only read."""
    made: dict[str, Store] = {}
    yield made
    for store in made.values():
        store.close()


@pytest.fixture
def board(stores, tmp_path: Path) -> Iterator[Callable[..., AnswerSource]]:
    """Give the board of a `Season`, or of a grid and what `drawn` takes beside it."""

    def open_it(season: Season | str, **cells: object) -> AnswerSource:
        drawn_season = drawn(season, **cells) if isinstance(season, str) else season
        tables = repr(drawn_season.tables())
        store = stores.pop(tables, None) or drawn_season.load(tmp_path / f"tables-{len(stores)}")
        stores[tables] = store
        return AnswerSource(store, "a test")

    yield open_it
    while len(stores) > KEPT:
        stores.pop(next(iter(stores))).close()


@pytest.fixture(scope="session")
def edge_board(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[[str], AnswerSource]]:
    """Give the board of a season at the edge, by name; each is loaded once."""
    stores: dict[str, Store] = {}

    def open_it(name: str) -> AnswerSource:
        if name not in stores:
            stores[name] = EDGES[name]().load(tmp_path_factory.mktemp("edge"))
        return AnswerSource(stores[name], name)

    yield open_it
    for store in stores.values():
        store.close()


@pytest.fixture(scope="module")
def answers() -> dict[str, object]:
    """Keep what a file's tests asked: the same again is answered the same."""
    return {}


@pytest.fixture
def ask(board, answers, request):
    """Answer the `QUESTION` of a test's module over a season, in its `SCOPE` and what is asked."""
    module = request.module

    def ask_it(season, options=None, /, **parts):
        asked = repr((season if isinstance(season, str) else season.tables(), options, parts))
        if asked not in answers:
            this = board(season)
            scope = read_scope({**getattr(module, "SCOPE", {}), **parts}, this.scope_values)
            answers[asked] = this.ask(module.QUESTION, scope, options)
        return answers[asked]

    return ask_it


@pytest.fixture(scope="module")
def sample(sample_store):
    with open_store(sample_store) as store:
        yield AnswerSource(store, "the sample")


@pytest.fixture
def sessions(board):
    def ask(season, today):
        this = board(season)
        return this.log_sessions(this.opening_scope(), today)

    return ask


@pytest.fixture
def sheet(board):
    def ask(season, key):
        this = board(season)
        found = this.log_sessions(this.opening_scope(), day(60))
        return this.log_sheet(next(one for one in found.sessions if one.session == key))

    return ask
