"""What the program remembers from one start to the next, in the user's own settings folder."""

import os
import secrets
from pathlib import Path


def settings_path() -> Path:
    """Return the file that keeps the settings, in the platform's folder for such files."""
    return settings_folder() / "settings.toml"


def last_store() -> Path | None:
    """Return the store opened last, which may be gone by now; None: none was."""
    named = _recalled(_memory())
    return Path(named) if named else None


def remember_store(path: Path) -> None:
    """Remember a store as the last one opened; without a place for that, do nothing."""
    _remember(_memory(), str(path.resolve()))


def last_screen() -> str:
    """Return the name of the screen shown when the board was last left; empty: not known."""
    return _recalled(settings_folder() / "last_screen")


def remember_screen(name: str) -> None:
    """Remember a screen as the last one shown; without a place for that, do nothing."""
    _remember(settings_folder() / "last_screen", name)


def _recalled(memory: Path) -> str:
    try:
        return memory.read_text("utf-8", errors="replace").strip()
    except OSError:
        return ""


def _remember(memory: Path, told: str) -> None:
    try:
        memory.parent.mkdir(parents=True, exist_ok=True)
        memory.write_text(f"{told}\n", "utf-8")
    except OSError:
        return  # a read-only home is no reason to refuse an answer


def curtain_secret() -> str:
    """Return what the curtain's codes are made with: this user's own, made when first needed.

    Kept in the user's settings, readable by nobody else, so that an athlete keeps a code on this
    machine and no code tells anything on another. Without a place for it, it lasts for this run.
    """
    path = settings_folder() / "curtain_key"
    fresh = secrets.token_hex(32)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as file:
            file.write(fresh)
    except FileExistsError:
        kept = path.read_text("utf-8", errors="replace").strip() if os.access(path, os.R_OK) else ""
        return kept if len(kept) >= len(fresh) else fresh
    except OSError:
        return fresh
    return fresh


def looks_path(store_id: str) -> Path:
    """Return where the looks at a store are counted: in the user's settings, not in the store."""
    return settings_folder() / "looks" / f"{store_id}.txt"


def releases_path(store_id: str) -> Path:
    """Return where the releases made of a store are remembered, should a backup lack one."""
    return settings_folder() / "releases" / f"{store_id}.txt"


def _memory() -> Path:
    return settings_folder() / "last_store"


def settings_folder() -> Path:
    """Return the user's own folder of this program, in the place the platform has for such."""
    import platformdirs

    return Path(platformdirs.user_config_dir("seasonboard", appauthor=False))
