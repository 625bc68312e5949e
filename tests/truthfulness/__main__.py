"""How truthful the intervals are: one command, one report.

python -m tests.truthfulness [--seasons 2000] [--seed 20261] [--out tests/truthfulness/RESULTS.md]
"""

import argparse
import os
import sys
import time
from pathlib import Path

from tests.truthfulness.claims import LOOKS, claims_section
from tests.truthfulness.departments import DEPARTMENTS, departments_section
from tests.truthfulness.drawn import SEASONS as DRAWN_SEASONS
from tests.truthfulness.drawn import drawn_section
from tests.truthfulness.forecasts import forecasts_section
from tests.truthfulness.games import games_section
from tests.truthfulness.report import report
from tests.truthfulness.scenarios import SCENARIOS
from tests.truthfulness.study import run

SEASONS, SEED = 2000, 20261


def main() -> None:
    """Run the study and write the report."""
    parser = argparse.ArgumentParser(prog="python -m tests.truthfulness", description=__doc__)
    parser.add_argument("--seasons", type=int, default=SEASONS, help="of each scenario")
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--out", type=Path, default=Path(__file__).with_name("RESULTS.md"))
    asked = parser.parse_args()
    if asked.seasons < 1:
        parser.error("--seasons: expected 1 or more")
    if not asked.out.parent.is_dir():
        parser.error(f"--out: there is no folder {asked.out.parent}")
    begin = time.perf_counter()
    workers = min(2, os.cpu_count() or 1)
    results = run(SCENARIOS, seasons=asked.seasons, seed=asked.seed, workers=workers)
    command = f"python -m tests.truthfulness --seasons {asked.seasons} --seed {asked.seed}"
    sections = (
        report(results, seed=asked.seed, command=command),
        games_section(seasons=asked.seasons, seed=asked.seed, workers=workers),
        drawn_section(seasons=min(asked.seasons, DRAWN_SEASONS), seed=asked.seed, workers=workers),
        forecasts_section(seasons=min(asked.seasons, 10), seed=asked.seed),
        claims_section(looks=min(asked.seasons, LOOKS), seed=asked.seed, workers=workers),
        departments_section(
            departments=min(asked.seasons, DEPARTMENTS), seed=asked.seed, workers=workers
        ),
    )
    text = "\n".join(sections)
    asked.out.write_text(text, encoding="utf-8")
    print(f"{asked.out}: {time.perf_counter() - begin:.0f} s", file=sys.stderr)


if __name__ == "__main__":
    main()
