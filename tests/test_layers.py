"""What is imported when: a command stays fast, and the first paint waits for no database."""

import ast
import os
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


@pytest.fixture(scope="module")
def start():
    return imported_by("import seasonboard.__main__, seasonboard.cli.main, seasonboard.cli.ask")


@pytest.mark.parametrize(
    "heavy", ["textual", "duckdb", "polars", "scipy", "numpy", "plotext", "typst"]
)
def test_a_start_imports_nothing_that_only_one_command_needs(start, heavy):
    assert heavy not in start


@pytest.mark.parametrize(
    "heavy", ["textual", "plotext", "scipy.stats", "pandas", "pyarrow", "typst"]
)
def test_an_asking_imports_no_screen(heavy):
    assert heavy not in imported_by(
        "from seasonboard.cli.ask import ask_command;"
        "from seasonboard.answers.questions import WEEK;"
        "ask_command(WEEK)"
    )


@pytest.mark.parametrize("heavy", ["duckdb", "polars", "scipy", "plotext"])
def test_the_first_paint_imports_no_database(heavy):
    assert heavy not in imported_by("import seasonboard.ui.app.app")


def test_an_answer_imports_no_screen():
    code = (
        "from seasonboard.wiring import open_sample; from seasonboard.scope import read_scope;"
        "from seasonboard.store.store import memory_store;"
        "from seasonboard.answers.questions import COMPARE, GAMES;"
        "from seasonboard.answers.source import AnswerSource;"
        "b = AnswerSource(memory_store(), 'x'); b.ask(COMPARE, read_scope({}, b.scope_values)); "
        "b.ask(GAMES, read_scope({}, b.scope_values))"
    )
    assert not {"textual", "plotext", "scipy.stats"} & imported_by(code)


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
