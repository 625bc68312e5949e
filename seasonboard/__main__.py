"""Where the program starts."""

import gc
import os
import sys

from seasonboard.cli.main import cli
from seasonboard.wiring import make_tools

FOR_OTHERS = 0o077
"""Rights that no file or folder is made with: what is in them is about people's health."""
SEARCH_AFTER = 50_000
"""New objects after which Python searches for such as refer to each other and to nothing else.

Modules and classes stay for as long as the program runs; searching through them every 700 objects,
as is usual, takes a tenth of a start and finds nothing.
"""


def main() -> None:
    """Run the command line."""
    search_seldom()
    os.umask(os.umask(FOR_OTHERS) | FOR_OTHERS)
    try:
        cli(obj={"tools": make_tools()}, prog_name="seasonboard")
    except BrokenPipeError:  # the reader of our output has gone, as `| head` does
        sys.stderr.close()
        sys.exit(0)


def search_seldom() -> None:
    """Let Python search for forgotten objects more seldom."""
    gc.set_threshold(SEARCH_AFTER)


if __name__ == "__main__":
    main()
