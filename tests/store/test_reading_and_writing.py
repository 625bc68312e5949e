"""Questions from many threads, stopping them, and writing all or nothing."""

import threading
from concurrent.futures import ThreadPoolExecutor

import duckdb
import polars as pl
import pytest

from seasonboard.errors import StoreError
from seasonboard.store import store as module
from seasonboard.store.catalogue import catalogue
from seasonboard.store.query_cursor import StoppedError
from seasonboard.store.question_header import SqlQuestion
from seasonboard.store.store import memory_store, open_store

ENDLESS = SqlQuestion(
    "test/endless",
    "How long does it take?",
    "one row",
    {},
    {"n": "HUGEINT"},
    "SELECT sum(a.range * b.range % 7) AS n FROM range(10_000_000) a, range(10_000_000) b",
)
LONG = 30


@pytest.fixture
def store():
    with memory_store() as made:
        yield made


@pytest.fixture
def endless(monkeypatch):
    """Add a question that would run for days to the catalogue."""
    every = {**catalogue(), ENDLESS.name: ENDLESS}
    monkeypatch.setattr(module, "catalogue", lambda: every)
    return ENDLESS.name


def test_a_question_gives_a_frame(store):
    frame = store.read("scope/days")
    assert isinstance(frame, pl.DataFrame)
    assert frame.columns == ["first_day", "last_day", "sessions", "guards"]


def test_an_unknown_question_is_told(store):
    with pytest.raises(StoreError, match="There is no question “compare/nothing”"):
        store.read("compare/nothing")


def test_a_parameter_left_out_or_too_many_is_told_with_the_question(store):
    with pytest.raises(StoreError, match="could not be answered") as refused:
        store.read("compare/strata", kinds=[])
    assert "How often were guarded" in refused.value.what
    with pytest.raises(StoreError):
        store.read("scope/days", extra=1)


def test_many_threads_read_at_once_and_all_get_the_same(store):
    names = [name for name, question in catalogue().items() if not question.params] * 4
    with ThreadPoolExecutor(8) as pool:
        found = list(pool.map(store.read, names))
    for name, frame in zip(names, found, strict=True):
        assert frame.equals(store.read(name))
    assert not store._cursors._busy


def ask_in_a_thread(store, name):
    """Ask in a thread; return it and the list that will hold how it ended."""
    ended: list[BaseException | pl.DataFrame] = []

    def ask():
        try:
            ended.append(store.read(name))
        except StoreError as error:
            ended.append(error)

    thread = threading.Thread(target=ask, daemon=True)
    thread.start()
    return thread, ended


def interrupt_until_it_ends(store, thread):
    """Interrupt again and again: the first may come before DuckDB has begun."""
    for _ in range(LONG * 20):
        store.interrupt()
        thread.join(0.05)
        if not thread.is_alive():
            return
    pytest.fail("the question runs on")


def test_interrupt_stops_what_is_running_and_the_store_answers_on(store, endless):
    threads = [ask_in_a_thread(store, endless) for _ in range(2)]
    for thread, _ in threads:
        interrupt_until_it_ends(store, thread)
    for _, (ended,) in threads:
        assert isinstance(ended, StoppedError)
        assert str(ended) == "The question was stopped."
    assert store.read("scope/days").height == 1
    assert not store._cursors._busy


def test_closing_does_not_wait_for_a_question(endless):
    store = memory_store()
    thread, ended = ask_in_a_thread(store, endless)
    while not store._cursors._busy and thread.is_alive():
        thread.join(0.01)
    closing = threading.Thread(target=store.close, daemon=True)
    closing.start()
    closing.join(LONG)
    assert not closing.is_alive(), "close() waits for the answer"
    thread.join(LONG)
    assert isinstance(ended[0], StoppedError)


def test_a_store_that_is_closed_says_so_in_its_own_error(store):
    store.close()
    with pytest.raises(StoreError):
        store.read("scope/days")
    store.close()


def marks(store):
    return store._connection.cursor().sql("SELECT name FROM store.about ORDER BY name").fetchall()


INSERT = "INSERT INTO store.about VALUES ('new', '1')"


def test_what_is_written_is_there_also_for_the_next_who_opens_it(tmp_path):
    path = tmp_path / "season.duckdb"
    with open_store(path, read_only=False) as store, store.writing() as cursor:
        cursor.execute(INSERT)
    with open_store(path) as store:
        assert ("new",) in marks(store)
    assert [file.name for file in tmp_path.iterdir()] == ["season.duckdb"]


def test_a_block_that_fails_leaves_nothing_behind(store):
    before = marks(store)
    with pytest.raises(ZeroDivisionError), store.writing() as cursor:
        cursor.execute(INSERT)
        raise ZeroDivisionError
    assert marks(store) == before


def test_a_statement_that_fails_leaves_nothing_behind(store):
    before = marks(store)
    with (
        pytest.raises(StoreError, match="nothing was changed") as refused,
        store.writing() as cursor,
    ):
        cursor.execute(INSERT)
        cursor.execute(INSERT)
    assert "mark" not in refused.value.what
    assert "duplicate key" in refused.value.hint
    assert isinstance(refused.value.__cause__, duckdb.ConstraintException)
    assert marks(store) == before


def test_stopping_by_the_keyboard_leaves_nothing_behind(store):
    before = marks(store)
    with pytest.raises(KeyboardInterrupt), store.writing() as cursor:
        cursor.execute(INSERT)
        raise KeyboardInterrupt
    assert marks(store) == before
    with store.writing() as cursor:
        cursor.execute(INSERT)
    assert ("new",) in marks(store)


def test_readers_see_a_block_only_when_it_is_done(store):
    before = marks(store)
    with store.writing() as cursor:
        cursor.execute(INSERT)
        assert marks(store) == before
    assert len(marks(store)) == len(before) + 1
