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

MARK = """
import sys, time
def mark(name):
    print(name, time.time(), file=sys.__stdout__, flush=True)
"""
BARE = (
    MARK
    + """
from textual.app import App
from textual.widgets import Static
class Bare(App):
    def compose(self):
        yield Static("opening")
async def look(pilot):
    pilot.app.call_after_refresh(mark, "paint")
    await pilot.pause()
    pilot.app.exit()
Bare().run(headless=True, auto_pilot=look)
"""
)
OURS = (
    MARK
    + """
import asyncio
from contextlib import ExitStack
from seasonboard.__main__ import search_seldom
search_seldom()
from seasonboard.ui.app.app import SeasonboardApp
from seasonboard.wiring import open_sample
async def look(pilot):
    pilot.app.call_after_refresh(mark, "paint")
    while getattr(pilot.app.screen, "answer", None) is None:
        await asyncio.sleep(0.005)
    pilot.app.call_after_refresh(mark, "answer")
    await pilot.pause()
    pilot.app.exit()
with ExitStack() as stack:
    app = SeasonboardApp(lambda: stack.enter_context(open_sample()))
    app.run(headless=True, auto_pilot=look)
"""
)


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
