"""Re-make the figures of figures.csv from the tables beside it: `python remake_figures.py`.

Needs numpy. Exit status 0: every figure agrees to 1e-6; 1: at least one does not.
"""

import csv
import math
import re
import sys
from collections import defaultdict
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np

FOLDER = Path(__file__).parent
CLOSE = 1e-6
PARTS = ("rate_ratio", "low", "high")
MEANS = re.compile(r"more games from ([0-9]+) to ([0-9]+)")
CURVE = re.compile(r"uninjured after ([0-9]+), (guarded|bare)")
Row = dict[str, str]
Counts = np.ndarray[Any, np.dtype[np.float64]]


def rows(name: str) -> list[Row]:
    """Return the rows of a table."""
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def counts(table: Sequence[Row], keys: Sequence[str], event: str, group: str) -> dict[Any, Counts]:
    """Return events and rows of both groups by the keys: a, b, t1, t0."""
    cells: dict[Any, Counts] = defaultdict(lambda: np.zeros(4))
    for row in table:
        bare = int(row[group] != "true")
        cell = cells[tuple(row[key] for key in keys)]
        cell[2 + bare] += 1
        cell[bare] += row[event] == "true"
    return cells


def mantel_haenszel(cells: dict[Any, Counts], z: float) -> tuple[float | None, ...]:
    """Return the ratio with Greenland and Robins' interval, or the mid-P one (1985; 1987)."""
    table = np.array([c for c in cells.values() if c[0] + c[1] and c[2] and c[3]]).reshape(-1, 4)
    a, b, t1, t0 = table.T
    above, under = (a * t0 / (t1 + t0)).sum(), (b * t1 / (t1 + t0)).sum()
    ratio = float(above / under) if under else None
    if ratio and len(table) > 1:
        spread = ((a + b) * t1 * t0 / (t1 + t0) ** 2).sum()
        reach = math.exp(z * math.sqrt(spread / (above * under)))
        return ratio, ratio / reach, ratio * reach
    return ratio, *mid_p(table, math.erfc(z / math.sqrt(2)) / 2)


def mid_p(table: Counts, tail: float) -> tuple[float | None, float | None]:
    """Return the mid-P interval: guarded injuries are binomial in each stratum, given their sum."""
    hurt = int(table[:, 0].sum())
    most = int(table[:, :2].sum())

    if not most:
        return None, None

    def below(log_ratio: float) -> float:
        """Return the chance of fewer guarded injuries than came, and half that of as many."""
        whole = np.ones(1)
        for a, b, t1, t0 in table:
            share = 1 / (1 + math.exp(-log_ratio) * t0 / t1)
            for _ in range(int(a + b)):
                whole = np.convolve(whole, [1 - share, share])
        return float(whole[:hurt].sum() + whole[hurt] / 2)

    def crossing(wanted: float) -> float:
        low, high = -50.0, 50.0
        for _ in range(200):
            middle = (low + high) / 2
            low, high = (middle, high) if below(middle) > wanted else (low, middle)
        return math.exp(low)

    return crossing(1 - tail) if hurt else 0.0, crossing(tail) if hurt < most else None


def log_rank(cells: dict[Any, Counts]) -> float | None:
    """Return chi-square: injuries guarded less those expected tick by tick (Mantel 1966)."""
    gap = variance = 0.0
    for a, b, n1, n0 in cells.values():
        size, hurt = n1 + n0, a + b
        gap += a - hurt * n1 / size
        if size > 1:
            variance += hurt * (size - hurt) * n1 * n0 / (size**2 * (size - 1))
    return gap**2 / variance if variance else None


def mean_difference(cells: dict[Any, Counts], start: int, horizon: int) -> float:
    """Return games before injury, guarded less bare, at one mix (weights of Mantel-Haenszel)."""
    weight, hazard = np.zeros(horizon), np.zeros((2, horizon))
    for key, (a, b, n1, n0) in cells.items():
        if (tick := int(key[-1])) < horizon and n1 and n0:
            weight[tick] += n1 * n0 / (n1 + n0)
            hazard[:, tick] += a * n0 / (n1 + n0), b * n1 / (n1 + n0)
    left = np.cumprod(1 - hazard[:, start:] / weight[start:], axis=1)
    return float(left[0].sum() - left[1].sum())


def kaplan_meier(table: Sequence[Row], group: str, ticks: Sequence[str]) -> list[float]:
    """Return the share still uninjured after each tick of a curve (Kaplan & Meier 1958)."""
    own = [row for row in table if (row["guarded"] == "true") == (group == "guarded")]
    at_tick = counts(own, ["stop"], "event", "guarded")
    shares = [1 - sum(at_tick[(tick,)][:2]) / sum(at_tick[(tick,)][2:]) for tick in ticks]
    return [float(share) for share in np.cumprod(shares)]


def remade(figures: Sequence[Row]) -> Iterator[tuple[str, float | None]]:
    """Yield each figure by its name, made anew."""
    z = next(float(row["value"]) for row in figures if row["figure"] == "z")
    compared = [row for row in rows("exposures.csv") if not row["set_aside"]]
    ratios = {
        "same session": counts(
            compared, ["area", "session_number", "position_group"], "injured", "guarded"
        )
    }
    if (FOLDER / "drawn_turns.csv").exists():
        ratios["drawn turns"] = counts(rows("drawn_turns.csv"), ["stratum"], "injured", "come")
    for name, cells in ratios.items():
        for part, value in zip(PARTS, mantel_haenszel(cells, z), strict=True):
            yield f"{name}, {part}", value
    if not (FOLDER / "start_stop.csv").exists():
        return
    spells = rows("start_stop.csv")
    for row in figures:
        if not row["figure"].startswith(("log-rank", "more games")):
            continue
        cells = counts(spells, [*row["strata"].split(), "stop"], "event", "guarded")
        if row["figure"].startswith("log-rank"):
            yield row["figure"], log_rank(cells)
        if means := MEANS.fullmatch(row["figure"]):
            yield row["figure"], mean_difference(cells, int(means[1]), int(means[2]))
    for group in ("guarded", "bare"):
        named = (CURVE.fullmatch(row["figure"]) for row in figures)
        own = [match for match in named if match and match[2] == group]
        shares = kaplan_meier(spells, group, [match[1] for match in own])
        yield from zip((match[0] for match in own), shares, strict=True)


def main() -> int:
    """Re-make each figure, print it beside what the board said, and compare."""
    figures = rows("figures.csv")
    board = {row["figure"]: float(row["value"]) if row["value"] else None for row in figures}
    worst = 0.0
    sys.stdout.write(f"{'figure':<36} {'re-made':>22} {'the board said':>22}\n")
    for name, value in remade(figures):
        said = board[name]
        gap = 0.0 if value is said is None else math.inf
        if value is not None and said is not None:
            gap = abs(value - said) / max(abs(said), 1.0)
        worst = max(worst, gap)
        sys.stdout.write(f"{name:<36} {value!s:>22} {said!s:>22}\n")
    sys.stdout.write(f"Largest relative difference: {worst:.1e}\n")
    return int(not worst < CLOSE)


if __name__ == "__main__":
    sys.exit(main())
