"""What is imported when: a command stays fast, and the first paint waits for no database."""

import ast
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


def imported_by(code):
    done = subprocess.run(
        [sys.executable, "-c", f"import sys; {code}; print(' '.join(sys.modules))"],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=True,
    )
    return set(done.stdout.split())


def test_a_start_imports_nothing_that_only_one_command_needs():
    heavy = {"textual", "duckdb", "polars", "scipy", "numpy", "plotext", "typst"}
    start = "import seasonboard.__main__, seasonboard.cli.main, seasonboard.cli.ask"
    assert not heavy & imported_by(start)


def test_an_asking_imports_no_screen():
    heavy = {"textual", "plotext", "scipy.stats", "pandas", "pyarrow", "typst"}
    assert not heavy & imported_by(
        "from seasonboard.cli.ask import ask_command;"
        "from seasonboard.answers.questions import WEEK;"
        "ask_command(WEEK)"
    )


def test_first_paint_waits_for_no_window_frame_store_statistic_or_plot():
    loaded = imported_by("import seasonboard.ui.app.app")
    assert not {"polars", "duckdb", "scipy", "numpy", "plotext"} & loaded
    assert not {m for m in loaded if m.startswith("seasonboard.ui.windows.")}
    assert not {m for m in loaded if re.fullmatch(r"seasonboard\.ui\.\w+\.screen", m)}


BOARD = (
    "from seasonboard.store.store import memory_store;"
    "from seasonboard.answers.questions import COMPARE, GAMES, WEEK;"
    "from seasonboard.answers.source import AnswerSource;"
    "b = AnswerSource(memory_store(), 'x');"
)


def test_an_answer_imports_no_screen():
    asked = "b.ask(COMPARE, b.opening_scope()); b.ask(GAMES, b.opening_scope())"
    assert not {"textual", "plotext", "scipy.stats"} & imported_by(BOARD + asked)


@pytest.mark.long
def test_first_answer_waits_for_no_other_screen_and_no_special_functions():
    loaded = imported_by(
        "from seasonboard.ui.all_screens import screen_class; screen_class('week');"
        f"{BOARD} b.ask(WEEK, b.opening_scope());"
        "from seasonboard.stats.proportions import clopper_pearson;"
        "clopper_pearson(0, 9); clopper_pearson(9, 9)"
    )
    others = {"compare", "games", "remakes", "departments", "checks"}
    assert not {f"seasonboard.ui.{other}.screen" for other in others} & loaded
    assert not {"scipy", "plotext", "seasonboard.answers.compare.answer"} & loaded


def test_the_top_level_holds_only_what_it_may():
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "seasonboard", "queries"}
    allowed |= {"sample_season", "tests"}
    done = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    top = {line.split("/")[0] for line in done.stdout.splitlines()}
    assert {name for name in top if not name.startswith(".")} <= allowed


def imports_of(tree: ast.Module) -> Iterator[ast.ImportFrom]:
    """Yield what a module imports when it is read, and what only its types need."""
    bodies = [tree.body]
    while bodies:
        for node in bodies.pop():
            if isinstance(node, ast.ImportFrom):
                yield node
            elif isinstance(node, ast.If | ast.Try):
                bodies.append(node.body)


def test_no_module_needs_one_that_needs_it_not_even_for_types():
    package = ROOT / "seasonboard"
    names = {
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): path
        for path in package.rglob("*.py")
    }
    needs = {
        name: {
            whole if (whole := f"{node.module}.{alias.name}") in names else node.module
            for node in imports_of(ast.parse(path.read_text("utf-8")))
            for alias in node.names
        }
        & names.keys() - {name}
        for name, path in names.items()
    }
    TopologicalSorter(needs).prepare()  # raises CycleError, which names the modules
