"""Who may read and write a file that takes the place of another."""

import shutil
from pathlib import Path


def keep_rights(path: Path, making: Path) -> None:
    """Give what takes the place of a file the rights of that file, where there is one."""
    if path.exists():
        shutil.copymode(path, making)
