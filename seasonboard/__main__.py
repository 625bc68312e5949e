"""Where the program starts."""

import sys

from seasonboard.cli.main import cli
from seasonboard.wiring import make_tools


def main() -> None:
    """Run the command line."""
    try:
        cli(obj={"tools": make_tools()}, prog_name="seasonboard")
    except BrokenPipeError:  # the reader of our output has gone, as `| head` does
        sys.stderr.close()
        sys.exit(0)


if __name__ == "__main__":
    main()
