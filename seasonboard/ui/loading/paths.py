"""Paths as people type and paste them, and their completion."""

import os
from collections.abc import Sequence
from pathlib import Path


def typed_path(text: str) -> Path:
    """Return the path that is meant: without quotes or escapes, `~` as the home folder.

    A home folder that is not known stays as it was typed; no file will be found there.
    """
    text = text.strip()
    if len(text) > 1 and text[0] == text[-1] and text[0] in "'\"":
        text = text[1:-1]
    elif os.sep == "/":
        text = text.replace("\\ ", " ")
    try:
        return Path(text).expanduser()
    except RuntimeError:
        return Path(text)


def completed(text: str, beside: Path | None = None) -> tuple[str, Sequence[str]]:
    """Return a typed path grown as far as it is clear, and what it could still become.

    Args:
        text: What is typed.
        beside: The folder that it begins in, unless it says another.
    """
    path = (beside or Path()) / typed_path(text)
    is_inside = not text.strip() or text.endswith(("/", os.sep))
    folder, start = (path, "") if is_inside else (path.parent, path.name)
    try:
        found = sorted(folder.iterdir(), key=lambda one: one.name.casefold())
    except OSError:
        return text, ()
    fitting = [
        one for one in found
        if one.name.casefold().startswith(start.casefold())
        and (start.startswith(".") or not one.name.startswith("."))
    ]  # fmt: skip
    names = [one.name + (os.sep if one.is_dir() else "") for one in fitting]
    if not names:
        return text, ()
    shared = _shared(names)
    grown = shared if len(shared) >= len(start) else start
    return str(folder / grown) + (os.sep if grown.endswith(os.sep) else ""), names


def _shared(names: Sequence[str]) -> str:
    """Return the letters that all names begin with."""
    first, last = min(names), max(names)
    same = next((n for n, (a, b) in enumerate(zip(first, last, strict=False)) if a != b), None)
    return first if same is None else first[:same]
