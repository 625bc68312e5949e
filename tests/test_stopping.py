"""Being stopped: at once until the commit begins, and not at all from there on."""

import os
import signal

import pytest

from seasonboard.errors import StoreError
from seasonboard.interruption import SIGNALS, Stopped, no_longer, stoppable
from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake import write
from seasonboard.store.intake.load_files import load_paths
from seasonboard.store.intake.undo import undo_path
from tests.store.conftest import held, more, season, season_folder, season_store

__all__ = ["season", "season_folder", "season_store"]  # fixtures


def send(number: int = signal.SIGINT) -> None:
    os.kill(os.getpid(), number)


@pytest.mark.parametrize(("number", "status"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_a_signal_stops_the_block_with_the_status_of_the_shell(number, status):
    with pytest.raises(Stopped) as stopped, stoppable():
        send(number)
    assert stopped.value.status == status


def test_whatever_comes_out_of_a_block_after_a_signal_is_its_end():
    """DuckDB answers an interrupt with a RuntimeError of its own."""
    with pytest.raises(Stopped), stoppable():
        try:
            send()
        except KeyboardInterrupt:
            raise RuntimeError("Query interrupted") from None


def test_an_error_without_a_signal_stays_what_it_is():
    with pytest.raises(StoreError), stoppable():
        raise StoreError("no")


def test_a_signal_that_comes_too_late_is_not_heard():
    with stoppable():
        no_longer()
        send()
        send(signal.SIGTERM)


def test_the_handlers_are_put_back():
    before = [signal.getsignal(number) for number in SIGNALS]
    with stoppable():
        assert [signal.getsignal(number) for number in SIGNALS] != before
    assert [signal.getsignal(number) for number in SIGNALS] == before


def at_the_end(monkeypatch, act) -> None:
    """Do something at the end of the next transaction, just before it is committed."""
    whole = write.no_longer
    monkeypatch.setattr(write, "no_longer", lambda: (act(), whole()))


def test_a_load_stopped_before_its_commit_leaves_the_store_as_it_was(season, tmp_path, monkeypatch):
    before = held(season)
    at_the_end(monkeypatch, send)
    with pytest.raises(Stopped), stoppable():
        load_paths(season, more(tmp_path), UnattendedLoad())
    assert held(season) == before


def test_a_load_stopped_in_its_commit_ends_and_is_written(season, tmp_path, monkeypatch):
    from seasonboard.store.cursor_pool import CursorPool

    monkeypatch.setattr(CursorPool, "clear", lambda _: send())  # right after the commit
    with stoppable():
        assert load_paths(season, more(tmp_path), UnattendedLoad()) is not None
    assert held(season)["teams"][0] == 3


def test_the_question_of_an_undo_can_be_stopped(season):
    before = held(season)
    with pytest.raises(Stopped), stoppable():
        undo_path(season, confirm=lambda _: send())
    assert held(season) == before
