"""What the first paint loads."""

import re
import subprocess
import sys

import pytest


def modules_after(code):
    code = f"import sys; {code}; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


def test_first_paint_waits_for_no_window_frame_store_statistic_or_plot():
    loaded = modules_after("import seasonboard.ui.app.app")
    assert not {"polars", "duckdb", "scipy", "numpy", "plotext"} & loaded
    assert not {m for m in loaded if m.startswith("seasonboard.ui.windows.")}
    assert not {m for m in loaded if re.fullmatch(r"seasonboard\.ui\.\w+\.screen", m)}


@pytest.mark.long
def test_first_answer_waits_for_no_other_screen_and_no_special_functions():
    loaded = modules_after(
        "from seasonboard.ui.all_screens import screen_class; screen_class('week');"
        "from seasonboard.answers.source import AnswerSource;"
        "from seasonboard.store.store import memory_store;"
        "from seasonboard.answers.questions import WEEK;"
        "board = AnswerSource(memory_store(), 'x'); board.ask(WEEK, board.opening_scope());"
        "from seasonboard.stats.proportions import clopper_pearson;"
        "clopper_pearson(0, 9); clopper_pearson(9, 9)"
    )
    others = {"compare", "games", "remakes", "departments", "checks"}
    assert not {f"seasonboard.ui.{other}.screen" for other in others} & loaded
    assert not {"scipy", "plotext", "seasonboard.answers.compare.answer"} & loaded
