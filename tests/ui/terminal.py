"""The real program in a real pseudo-terminal: keys go in, what a screen would show comes out."""

import os
import sys
import time
from collections.abc import Callable, Mapping
from pathlib import Path

import pexpect
import pyte

from tests.patience import PATIENCE

ROOT = Path(__file__).resolve().parent.parent.parent


class Terminal:
    """`seasonboard` with some words, in a terminal of 80 by 24."""

    def __init__(self, *words: object, env: Mapping[str, str]) -> None:
        """Start it."""
        self._screen = pyte.Screen(80, 24)
        self._stream = pyte.ByteStream(self._screen)
        self._child = pexpect.spawn(
            sys.executable,
            ["-m", "seasonboard", *map(str, words)],
            dimensions=(24, 80),
            env={**os.environ, "TERM": "xterm-256color", "PYTHONPATH": str(ROOT), **env},
        )

    @property
    def shown(self) -> str:
        """Return what stands on the screen."""
        return "\n".join(line.rstrip() for line in self._screen.display)

    def press(self, keys: str) -> None:
        """Send keys as a terminal does."""
        self._child.send(keys)

    def until(self, is_so: Callable[[str], bool]) -> str:
        """Read until the screen is as wanted; return it."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            try:
                self._stream.feed(self._child.read_nonblocking(65536, timeout=0.05))
            except pexpect.TIMEOUT:
                pass
            except pexpect.EOF:
                break
            if is_so(self.shown):
                return self.shown
        raise AssertionError(f"it never came to be:\n{self.shown}")

    def until_it_says(self, text: str) -> str:
        """Read until a text stands on the screen."""
        return self.until(lambda shown: text in shown)

    def ended(self) -> int:
        """Wait until it has ended by itself; return its status."""
        self._child.expect(pexpect.EOF, timeout=PATIENCE)
        self._child.close()
        return int(self._child.exitstatus)

    def kill(self) -> None:
        """End it as a crash or the system does: at once, with SIGKILL."""
        self._child.kill(9)
        self._child.wait()
        self._child.close()
