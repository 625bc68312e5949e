"""The sample season as a store, made once from the shipped tables, apart from the user's own."""

import hashlib
import os
import tempfile
from collections.abc import Sequence
from pathlib import Path

from seasonboard import __version__
from seasonboard.errors import SeasonboardError


def sample_store() -> Path:
    """Return the sample season's store; it is made by loading the shipped tables once."""
    import platformdirs

    name = f"sample-{_fingerprint()}.duckdb"
    folders = [Path(platformdirs.user_cache_dir("seasonboard", appauthor=False))]
    folders.append(Path(tempfile.gettempdir()) / f"seasonboard-{Path.home().name}")
    ready = next((folder / name for folder in folders if (folder / name).exists()), None)
    return ready or _make_sample(_first_writable(folders) / name)


def own_sample() -> Path:
    """Return a copy of the sample season among the user's data, to be written to; made once."""
    import platformdirs

    folder = Path(platformdirs.user_data_dir("seasonboard", appauthor=False))
    target = _first_writable([folder]) / "invented-season.duckdb"
    return target if target.exists() else _make_sample(target)


def _make_sample(target: Path) -> Path:
    from seasonboard.load_dialog import UnattendedLoad
    from seasonboard.store.intake.load_files import load_paths
    from seasonboard.store.shipped_files import shipped

    with tempfile.TemporaryDirectory(dir=target.parent) as folder:
        fresh = Path(folder) / target.name
        load_paths(fresh, [shipped("sample_season")], UnattendedLoad())
        fresh.replace(target)
    return target


def _fingerprint() -> str:
    """Return a short mark of everything the sample's store is made from."""
    from seasonboard.store.shipped_files import shipped

    mark = hashlib.sha256(__version__.encode())
    files = [*shipped("sample_season").glob("*.csv"), *shipped("queries").glob("schema/*.sql")]
    for path in sorted(files):
        mark.update(path.name.encode())
        mark.update(path.read_bytes())
    return mark.hexdigest()[:16]


def _first_writable(folders: Sequence[Path]) -> Path:
    for folder in folders:
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError:
            continue
        if os.access(folder, os.W_OK):
            return folder
    places = " nor ".join(str(folder) for folder in folders)
    raise SeasonboardError(
        f"The sample season cannot be written to {places}.", "Make one of them writable."
    )
