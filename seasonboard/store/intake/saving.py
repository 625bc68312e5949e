"""Files are written beside their place and moved there once they are whole."""

import os
import uuid
from pathlib import Path

from seasonboard.errors import StoreError
from seasonboard.store.file_rights import keep_rights


def save_whole(path: Path, data: bytes) -> None:
    """Write a file in one step, over one of that name: readers see all of it or the one before.

    Raises:
        StoreError: It could not be written; what was there is as it was.
    """
    if not path.parent.is_dir():
        raise StoreError(f"The folder {path.parent} does not exist.", "Make it, or name another.")
    if path.is_dir():
        raise StoreError(f"{path} is a folder; nothing was written.", "Name a file in it.")
    making = beside(path)
    try:
        with making.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        keep_rights(path, making)
        making.replace(path)
    except OSError as error:
        making.unlink(missing_ok=True)
        raise not_written(path, error) from error
    except BaseException:
        making.unlink(missing_ok=True)
        raise


def beside(path: Path) -> Path:
    """Return a hidden name beside `path` that nobody else uses."""
    return path.with_name(f".{path.name}.{uuid.uuid4().hex[:8]}.making")


def not_written(path: Path, error: OSError) -> StoreError:
    """Return the error of a file or folder that could not be written."""
    return StoreError(
        f"{path} could not be written: {error.strerror or error}; nothing was changed.",
        "Name another place, or make room there.",
    )
