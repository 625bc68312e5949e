"""Names that a stranger can guess: no function, class or module is called by a bare word."""

import ast
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parent.parent / "seasonboard"
BARE = {"found", "told", "said", "place", "each", "known"}
"""Words that say that something is, not what it is."""


def named() -> Iterator[tuple[str, str]]:
    """Yield each function, class and module: where it is, and its name."""
    for path in sorted(PACKAGE.rglob("*.py")):
        where = str(path.relative_to(PACKAGE))
        yield where, path.stem
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
                yield f"{where}:{node.lineno}", node.name


def test_nothing_is_called_by_a_bare_word_that_means_many_things():
    assert [at for at in named() if at[1].strip("_").casefold() in BARE] == []
