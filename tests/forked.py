"""The command line as a process that need not import everything anew.

Each is forked from a server that has imported what the commands need and done nothing with it; its
words, environment and streams are its own. `fresh=True` starts the interpreter anew instead.
"""

import os
import sys
from collections.abc import Mapping, Sequence
from multiprocessing import get_context
from multiprocessing.process import BaseProcess
from pathlib import Path
from subprocess import TimeoutExpired

_IMPORTED = (
    "polars", "duckdb", "scipy.special", "seasonboard.__main__", "seasonboard.answers.source",
    "seasonboard.cli.ask", "seasonboard.answers.compare.answer", "seasonboard.answers.week.answer",
    "seasonboard.cli.backup", "seasonboard.cli.load", "seasonboard.store.intake",
    "seasonboard.store.store", "tests.forked",
)  # fmt: skip
_context = get_context("forkserver")
_context.set_forkserver_preload(list(_IMPORTED))


def run_forked(
    words: Sequence[str], environment: Mapping[str, str], streams: Path, timeout_s: float
) -> int:
    """Run `seasonboard` with these words; return its status.

    Args:
        words: As typed.
        environment: All of it.
        streams: A folder with a file `in`; gets `out` and `err`.
        timeout_s: When it is given up.

    Raises:
        TimeoutExpired: It took longer.
    """
    process: BaseProcess = _context.Process(
        target=_command, args=(list(words), dict(environment), streams)
    )
    process.start()
    process.join(timeout_s)
    if process.exitcode is None:
        process.kill()
        process.join()
        raise TimeoutExpired(words, timeout_s)
    return process.exitcode


def _command(words: list[str], environment: dict[str, str], streams: Path) -> None:
    os.environ.clear()
    os.environ.update(environment)
    for number, name, flags in (
        (0, "in", os.O_RDONLY),
        (1, "out", os.O_WRONLY | os.O_CREAT),
        (2, "err", os.O_WRONLY | os.O_CREAT),
    ):
        opened = os.open(streams / name, flags)
        os.dup2(opened, number)
        os.close(opened)
    sys.stdin = open(0, encoding="utf-8", closefd=False)  # noqa: SIM115 - as the process's own
    sys.stdout = open(1, "w", encoding="utf-8", closefd=False)  # noqa: SIM115
    sys.stderr = open(2, "w", encoding="utf-8", closefd=False)  # noqa: SIM115
    sys.argv = ["seasonboard", *words]
    from seasonboard.__main__ import main

    main()
