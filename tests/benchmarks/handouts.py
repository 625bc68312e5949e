"""How fast documents are written: `python -m tests.benchmarks.handouts`.

Writes the meeting sheet and the pitch page of the sample season as commands, in turns with `ask`,
which puts the same questions and prints the answer as JSON. The ratio says how many times longer a
document takes: the machine's speed cancels out of it. Best of several.
"""

import os
import sys
import tempfile
from pathlib import Path

from seasonboard.load_dialog import UnattendedLoad
from seasonboard.store.intake.load_files import load_paths
from tests.benchmarks.__main__ import command
from tests.conftest import ROOT

RUNS = 3
GOAL_RATIO = {"html": 2.0, "xlsx": 2.2, "pdf": 2.5}
"""Times what `ask` takes."""
SCOPE = {
    "week": ("--department", "QM"),
    "pitch": ("--kind", "shin", "--printers", "2", "--printer-hours", "60"),
}


def main() -> int:
    """Time every kind in every format, print, and say by the exit status whether goals were met."""
    is_met = True
    os.environ["XDG_CONFIG_HOME"] = tempfile.mkdtemp()
    with tempfile.TemporaryDirectory() as folder:
        store = Path(folder) / "season.duckdb"
        load_paths(store, [ROOT / "sample_season"], UnattendedLoad())
        command("release", "--store", store, "--yes", runs=1)
        for kind, scope in SCOPE.items():
            own = ("--store", store, *scope)
            for ending, goal in GOAL_RATIO.items():
                out = ("--out", Path(folder) / f"{kind}.{ending}", "--force")
                asked, written = [], []
                for _ in range(RUNS):
                    asked.append(command("ask", kind, *own, "--format", "json", runs=1))
                    written.append(command("handout", kind, *own, *out, runs=1))
                ratio = min(written) / min(asked)
                is_met &= ratio < goal
                print(
                    f"{kind}.{ending:5} {min(written):6.0f} ms, "
                    f"ask {kind} {min(asked):6.0f} ms, ratio {ratio:.2f} (goal {goal})"
                )
    return 0 if is_met else 1


if __name__ == "__main__":
    sys.exit(main())
