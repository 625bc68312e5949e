"""Files of text that people may edit: read whole, if they are files, small and well formed."""

import json
import os
import re
import stat
import tomllib
from pathlib import Path
from typing import Any

from seasonboard.file_limits import MIB, MOST_NESTED, MOST_SETTINGS

_QUOTED = re.compile(r'"(?:[^"\\\n]++|\\.)*+"?|\'[^\'\n]*+\'?')
_LONG_KEY = re.compile(rf"(?<![\w-])(?:[\w-]++[ \t]*+\.[ \t]*+){{{MOST_NESTED}}}")


class UnusableFileError(ValueError):
    """The content of a file cannot be used; its text continues a sentence: “is a pipe, …”."""


def is_folder(path: Path) -> bool:
    """Say whether a path is a folder; one that cannot be looked at is none."""
    try:
        return path.is_dir()
    except OSError:
        return False


def read_regular(path: Path, most: int) -> bytes:
    """Return the bytes of a file, at most `most` of them.

    Pipes and devices, whose reading may never end, are not opened for long.

    Raises:
        UnusableFileError: It is no ordinary file, or larger.
        OSError: It cannot be read.
    """
    if not stat.S_ISREG(path.stat().st_mode):
        raise UnusableFileError("is a folder, a pipe or a device, not a file.")
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with os.fdopen(handle, "rb") as file:
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):  # changed meanwhile
            raise UnusableFileError("is a folder, a pipe or a device, not a file.")
        if os.fstat(file.fileno()).st_size > most:
            raise _too_large(most)
        data = file.read(most + 1)
    if len(data) > most:
        raise _too_large(most)
    return data


def read_toml(path: Path) -> dict[str, Any]:
    """Return what a TOML file holds; a byte order mark is passed over.

    Raises:
        UnusableFileError: It is no ordinary file, too large, too deeply nested, or not TOML.
        OSError: It cannot be read.
    """
    text = _text(path, "TOML")
    _check_keys(text)
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:  # also numbers of thousands of digits
        raise UnusableFileError(f"is not TOML in UTF-8: {_short(error)}.") from error


def read_json(path: Path) -> Any:  # noqa: ANN401 - whatever JSON holds
    """Return what a JSON file holds.

    Raises:
        UnusableFileError: It is no ordinary file, too large, too deeply nested, not JSON, or holds
            halves of letters.
        OSError: It cannot be read.
    """
    text = _text(path, "JSON")
    try:
        content = json.loads(text)
        json.dumps(content, ensure_ascii=False).encode()
    except (ValueError, RecursionError) as error:
        raise UnusableFileError(f"is not JSON in UTF-8: {_short(error)}.") from error
    return content


def _text(path: Path, form: str) -> str:
    try:
        return read_regular(path, MOST_SETTINGS).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise UnusableFileError(f"is not {form} in UTF-8: {_short(error)}.") from error


def _check_keys(text: str) -> None:
    """Refuse keys of very many parts, whose reading takes the square of them."""
    if _LONG_KEY.search(_QUOTED.sub("_", text)):
        raise UnusableFileError(f"has a key of more than {MOST_NESTED} parts.")


def _short(error: Exception) -> str:
    said = str(error).splitlines()[0] if str(error) else "it is nested too deeply"
    return said[:200].rstrip(".")


def _too_large(most: int) -> UnusableFileError:
    return UnusableFileError(f"is larger than {most // MIB} MB, which no such file is.")
