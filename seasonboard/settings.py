"""What the board remembers from one start to the next, in a file that a person can edit."""

import json
import os
import tempfile
from collections.abc import Callable
from dataclasses import asdict, dataclass, fields
from pathlib import Path

from seasonboard.errors import SeasonboardError
from seasonboard.regular_files import UnusableFileError, read_toml

THEMES = ("dark", "light", "projector")
_HEAD = "# What seasonboard starts with; the key , on the board changes it.\n"


class SettingsError(SeasonboardError):
    """The settings cannot be read or written."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What is kept: store, season, theme and screen to start with; an empty text means: not set.

    Without a screen the board starts with the one shown last.
    """

    store: str = ""
    season: str = ""
    theme: str = THEMES[0]
    screen: str = ""


@dataclass(frozen=True, slots=True)
class Start:
    """What a start of the board is given of earlier ones; `screen` was shown when it was last left.

    `keep` keeps changed settings and may raise SeasonboardError; `said` is told first, for instance
    why the settings are not used; `is_first`: there is nothing to open yet; `missing` is the store
    that would have been opened and is not there.
    """

    settings: Settings = Settings()
    keep: Callable[[Settings], None] = lambda _: None
    said: str = ""
    is_first: bool = False
    missing: Path | None = None
    screen: str = ""
    keep_screen: Callable[[str], None] = lambda _: None


def read_settings(path: Path) -> Settings:
    """Return the settings in a file; those of a new start where there is no file.

    Raises:
        SettingsError: It cannot be read, or holds something else than settings.
    """
    try:
        told = read_toml(path)
    except FileNotFoundError:
        return Settings()
    except (OSError, UnusableFileError) as error:
        raise _broken(path, str(error).rstrip(".")) from error
    known = [field.name for field in fields(Settings)]
    for name, value in told.items():
        if name not in known:
            raise _broken(path, f"“{name}” is no setting, known are {', '.join(known)}")
        if not isinstance(value, str):
            raise _broken(path, f"{name} is {value!r}, expected {_expected(name)}")
    settings = Settings(**told)
    if settings.theme not in THEMES:
        raise _broken(path, f"theme is “{settings.theme}”, expected {_expected('theme')}")
    return settings


def write_settings(path: Path, settings: Settings) -> None:
    """Write the settings beside the file, then put them in its place.

    Raises:
        SettingsError: The file there is broken, and is left as it is; or it cannot be written.
    """
    read_settings(path)
    lines = [f"{name} = {_toml(value)}\n" for name, value in asdict(settings).items()]
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f"{path.name}.")
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as out:
                out.write(_HEAD + "".join(lines))
            Path(beside).replace(path)
        except BaseException:
            Path(beside).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise SettingsError(
            f"The settings could not be written to {path} ({error.strerror}).",
            "They hold until you leave; make the folder writable to keep them.",
        ) from error


def _toml(value: str) -> str:
    """Return a text as TOML: JSON's strings are TOML's, but for one letter."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _expected(name: str) -> str:
    return " or ".join(THEMES) if name == "theme" else "a text in quotes"


def _broken(path: Path, why: str) -> SettingsError:
    return SettingsError(
        f"The settings in {path} are not used: {why}.", "Mend the file or remove it."
    )
