"""What the first paint loads."""

import subprocess
import sys


def test_board_is_imported_without_frames_store_statistics_or_plots() -> None:
    code = (
        "import sys, seasonboard.ui.app;"
        "print([m for m in ('polars', 'duckdb', 'scipy', 'numpy', 'plotext') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
