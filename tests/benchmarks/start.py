"""How fast the board stands there: `python -m tests.benchmarks.start`.

Starts processes and takes the wall time from their start to the first paint, and to the first
answer on the sample season; for comparison a bare Textual app of one line, whose imports nobody
can avoid who shows anything with it, in turns in the same run. Best of several: the machine's
speed cancels out of the ratio.
"""

import os
import subprocess
import sys
import time

RUNS = 7
GOAL_PAINT, GOAL_RATIO, GOAL_ANSWER = 0.5, 1.3, 1.0
"""Seconds to the first paint, times a bare app, seconds to the first answer."""

BARE = """
import time
from textual.app import App
from textual.widgets import Static
class Bare(App):
    def compose(self):
        yield Static("opening")
    def on_mount(self):
        self.call_after_refresh(self.painted)
    def painted(self):
        print("paint", time.time())
        self.exit()
Bare().run(headless=True)
"""
OURS = """
import time
from seasonboard.ui.app import SeasonboardApp
from seasonboard.wiring import open_sample
from contextlib import ExitStack
stack = ExitStack()
class Timed(SeasonboardApp):
    def on_mount(self):
        self.call_after_refresh(lambda: print("paint", time.time()))
        super().on_mount()
        self.set_interval(0.005, self.look)
    def look(self):
        if getattr(self.screen, "answer", None) is not None:
            print("answer", time.time())
            self.exit()
Timed(lambda: stack.enter_context(open_sample())).run(headless=True)
stack.close()
"""


def started(code: str) -> dict[str, float]:
    """Run a program; return the seconds from its start to each of its marks."""
    begin = time.time()
    done = subprocess.run(
        [sys.executable, "-c", code], check=True, capture_output=True, text=True, env=os.environ
    )
    marks = (line.split() for line in done.stdout.splitlines() if line.startswith(("paint", "ans")))
    return {name: float(at) - begin for name, at in marks}


def main() -> int:
    """Time both in turns, print, and say by the exit status whether the goals were met."""
    started(OURS)  # makes the sample's store and the byte code
    bare, ours = [], []
    for _ in range(RUNS):
        bare.append(started(BARE)["paint"])
        ours.append(started(OURS))
    least = min(bare)
    paint, answer = (min(each[name] for each in ours) for name in ("paint", "answer"))
    print(f"bare Textual app, first paint   {least:.2f} s")
    print(f"seasonboard, first paint        {paint:.2f} s (goal {GOAL_PAINT} s)")
    print(f"ratio                           {paint / least:.2f} (goal {GOAL_RATIO})")
    print(f"seasonboard, first answer       {answer:.2f} s (goal {GOAL_ANSWER} s)")
    met = paint < GOAL_PAINT and paint / least < GOAL_RATIO and answer < GOAL_ANSWER
    return 0 if met else 1


if __name__ == "__main__":
    sys.exit(main())
