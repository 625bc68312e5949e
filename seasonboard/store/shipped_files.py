"""Where the SQL and the sample season lie: in the wheel, or beside the package in a checkout."""

from pathlib import Path

from seasonboard.errors import StoreError

_PACKAGE = Path(__file__).resolve().parent.parent


def shipped(name: str) -> Path:
    """Return the folder `name` that ships with the program.

    Args:
        name: `queries` or `sample_season`.

    Raises:
        StoreError: The installation lacks the folder.
    """
    for place in (_PACKAGE / name, _PACKAGE.parent / name):
        if place.is_dir():
            return place
    raise StoreError(
        f"The folder “{name}” is missing from this installation of seasonboard.",
        "Install the program again.",
    )
