"""Being stopped by Ctrl-C or by the system, at a moment when that is harmless.

A load is asked to stop by SIGINT (Ctrl-C) or SIGTERM. Until it begins to commit it can; from there
on it is quicker and plainer to let it end, and what the person is told is true either way.
"""

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

SIGNALS = (signal.SIGINT, signal.SIGTERM)


class Stopped(Exception):  # noqa: N818 - a wish, not an error
    """The person or the system stopped the command before it had written anything.

    `status` is the exit status by the shell's convention: 130 after Ctrl-C, 143 after SIGTERM.
    """

    def __init__(self, number: int) -> None:
        """Keep the signal's number."""
        super().__init__(f"stopped by {signal.Signals(number).name}")
        self.status = 128 + number


class _Wish:
    """What was asked of the command that runs now."""

    def __init__(self) -> None:
        self.number: int | None = None
        self.is_too_late = False

    def __call__(self, number: int, _frame: FrameType | None) -> None:
        if not self.is_too_late:
            self.number = number
            raise KeyboardInterrupt


_wishes: list[_Wish] = []


def no_longer() -> None:
    """Let the command end from here on; what it writes is about to be committed."""
    for wish in _wishes:
        wish.is_too_late = True


@contextmanager
def stoppable() -> Iterator[None]:
    """Let the block be stopped by Ctrl-C and SIGTERM, until it calls `no_longer`.

    Raises:
        Stopped: It was stopped. DuckDB and the prompts turn an interrupt into errors of their own,
            so whatever comes out of the block after a signal counts as that.
    """
    if threading.current_thread() is not threading.main_thread():
        yield  # only the main thread is told of signals
        return
    wish = _Wish()
    before = {number: signal.signal(number, wish) for number in SIGNALS}
    _wishes.append(wish)
    try:
        yield
    except BaseException as error:
        if wish.number is not None:
            raise Stopped(wish.number) from error
        raise
    finally:
        _wishes.remove(wish)
        for number, handler in before.items():
            signal.signal(number, handler)
