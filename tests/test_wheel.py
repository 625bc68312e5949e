"""The built wheel works on its own: its queries, sample season and help are in it."""

import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

pytestmark = pytest.mark.long  # a wheel is built and started


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory):
    """Build the wheel and unpack it, as an installer would."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)],
        cwd=ROOT,
        check=True,
        capture_output=True,
        env={**os.environ, "PYTHONWARNINGS": "ignore"},
    )
    (wheel,) = folder.glob("*.whl")
    site = folder / "site"
    zipfile.ZipFile(wheel).extractall(site)
    return site


def run_from(site, home, *words):
    environment = {
        **os.environ,
        "PYTHONPATH": str(site),
        "HOME": str(home),
        "XDG_CACHE_HOME": str(home / "cache"),
        "XDG_CONFIG_HOME": str(home / "config"),
    }
    return subprocess.run(
        [sys.executable, "-P", "-m", "seasonboard", *words],
        cwd=home,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_wheel_holds_queries_and_sample(unpacked):
    assert (unpacked / "seasonboard" / "queries" / "compare" / "strata.sql").is_file()
    assert (unpacked / "seasonboard" / "sample_season" / "attendance.csv").is_file()
    assert (unpacked / "seasonboard" / "published" / "rates.csv").is_file()
    assert (unpacked / "seasonboard" / "published" / "shares.csv").is_file()
    assert (unpacked / "seasonboard" / "help" / "changes.md").is_file()
    assert (unpacked / "seasonboard" / "answers" / "compare" / "cards.md").is_file()
    assert not (unpacked / "tests").exists()


def test_the_wheel_answers_from_the_sample_season(unpacked, tmp_path):
    done = run_from(unpacked, tmp_path, "ask", "compare", "--sample", "--format", "json")
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["guarded"]["exposures"] > 0


def test_the_wheel_prints_help(unpacked, tmp_path):
    done = run_from(unpacked, tmp_path, "help", "tables")
    assert done.returncode == 0, done.stderr
    assert "prints_per_week" in done.stdout


def test_the_wheel_is_what_runs(unpacked, tmp_path):
    """Were the checkout picked up instead, the two tests above would prove nothing."""
    done = subprocess.run(
        [sys.executable, "-P", "-c", "import seasonboard; print(seasonboard.__file__)"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(unpacked)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.startswith(str(unpacked))
