"""Claims in seasons with a known truth: the table of what is said falsely, and how often rightly.

python -m tests.truthfulness.claims [--looks 1000] [--seed 20261]
"""

import argparse
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import repeat

import numpy as np

from seasonboard.answers.claims.rules import ClaimWord
from tests.truthfulness.care import SCENARIOS, CareLook, CareScenario, care_season
from tests.truthfulness.study import workers_pool
from tests.truthfulness.tables import markdown, percent

LOOKS, SEED = 2_000, 20261
POWER_LOOKS = 150
"""Looks at each of the ratios that power is told of, at most."""
RATIOS = (1.0, 0.6, 0.3)
ALLOWED = 0.025


@dataclass(frozen=True, slots=True)
class CareResult:
    """One scenario: its seasons by planted ratio."""

    scenario: CareScenario
    seasons: dict[float, list[CareLook]]

    def ratio(self) -> float:
        """Return the pooled ratio where none is planted."""
        own = self.seasons[1.0]
        return sum(one.above for one in own) / sum(one.under for one in own)

    def share(self, ratio: float, name: str, *words: ClaimWord) -> float:
        """Return the share of seasons in which something holds, or is one of `words`."""
        found = [getattr(one, name) for one in self.seasons[ratio]]
        return float(np.mean([one in words if words else one for one in found]))


_CONDITION, _CLAIM = (ClaimWord.CONDITIONAL,), (ClaimWord.CLAIMED,)
_SEEN = (ClaimWord.SEEN, *_CONDITION, *_CLAIM)


def run_claims(*, looks: int, seed: int, workers: int = 1) -> list[CareResult]:
    """Simulate every scenario, at each ratio."""
    results = []
    with workers_pool(workers) as pool:
        for number, scenario in enumerate(SCENARIOS):
            made = {}
            for place, ratio in enumerate(RATIOS):
                many = looks if ratio == 1 else min(looks, POWER_LOOKS)
                seeds = [(seed, 700 + number, place, season) for season in range(many)]
                made[ratio] = list(
                    pool.map(care_season, repeat(scenario), repeat(ratio), seeds, chunksize=25)
                )
            results.append(CareResult(scenario, made))
    return results


_SAYS = """\
Three seasons of ten teams of 25, looked at together at their end; some {informing:.0f} injuries
inform the headline, twice as many happen far from the guard. *Careful*: athletes with a lower risk
of their own take and wear guards more; the number is the variance of that risk, ρ its correlation
between the studied sites and the far ones. *Wear lost*: so many rows of guarded injuries (besides,
5 % of all owners' wear is not known); *attendance lost*: so many rows of uninjured athletes without
a guard. *Ratio*: pooled over {looks} looks without an effect; *false*: said at them, in %; *power*:
at {power} looks at that planted ratio. *Once*: were limits that hold for a single look enough. In
brackets: what the sentence of the claim itself excepts. The last columns: how often control sites,
wear (W) and attendance (A) ring.
"""

_HEAD = (
    *("seasons", "ratio", "false seen", "false claimed with its condition", "false claimed"),
    *("power 0.6", "power 0.3", "once: false", "once: 0.6", "once: 0.3"),
    *("controls ring", "W rings", "A rings"),
)


def _row(one: CareResult) -> tuple[str, ...]:
    def said(ratio: float, name: str, *words: ClaimWord) -> str:
        return percent(one.share(ratio, name, *words))

    false, once = (said(1.0, name, *_CONDITION) for name in ("word", "once"))
    if one.scenario.is_excepted:
        false, once = f"({false})", f"({once})"
    powers = (said(ratio, name, *_CONDITION) for name in ("word", "once") for ratio in RATIOS[1:])
    power_6, power_3, once_6, once_3 = powers
    rings = (said(1.0, f"{name}_ring{'s' * (name != 'controls')}")
             for name in ("controls", "wear", "attendance"))  # fmt: skip
    return (
        *(one.scenario.name, f"{one.ratio():.2f}", said(1.0, "word", *_SEEN), false),
        *(said(1.0, "word", *_CLAIM), power_6, power_3, once, once_6, once_3, *rings),
    )


def bounds(results: Sequence[CareResult], looks: int) -> list[str]:
    """Return whether the bounds are kept within two Monte Carlo standard errors, in sentences."""
    room = 2 * (ALLOWED * (1 - ALLOWED) / looks) ** 0.5
    lines = []
    for what, words, judged in (
        ("claimed, with complete records", _CLAIM, [r for r in results if r.scenario.is_complete]),
        ("claimed with its condition", _CONDITION,
         [r for r in results if not r.scenario.is_excepted]),
    ):  # fmt: skip
        worst = max(judged, key=lambda one: one.share(1.0, "word", *words))
        share = worst.share(1.0, "word", *words)
        met = "met" if share <= ALLOWED + room else "**not met**"
        lines.append(
            f"- False {what}: at most {percent(share)} % ({worst.scenario.name}); at most "
            f"{percent(ALLOWED)} ± {percent(room)} %: {met}."
        )
    excepted = [r for r in results if r.scenario.is_excepted]
    worst = max(excepted, key=lambda one: one.share(1.0, "word", *_CONDITION))
    share = percent(worst.share(1.0, "word", *_CONDITION))
    lines.append(
        f"- What the sentence excepts, care at the studied site only: up to {share} % "
        f"({worst.scenario.name})."
    )
    return lines


def claims_report(results: Sequence[CareResult], *, looks: int, command: str) -> str:
    """Return the section of the report."""
    informing = float(np.mean([one.informing for one in results[0].seasons[1.0]]))
    says = _SAYS.format(informing=informing, looks=looks, power=len(results[0].seasons[RATIOS[1]]))
    parts = ("## Claims\n", says, f"Made by `{command}`.\n", *bounds(results, looks), "")
    return "\n".join(parts) + "\n" + markdown(_HEAD, [_row(one) for one in results])


def claims_section(*, looks: int, seed: int, workers: int) -> str:
    """Run the scenarios; return the section of the report."""
    command = f"python -m tests.truthfulness.claims --looks {looks} --seed {seed}"
    results = run_claims(looks=looks, seed=seed, workers=workers)
    return claims_report(results, looks=looks, command=command)


def main() -> None:
    """Run the scenarios and print the section."""
    parser = argparse.ArgumentParser(prog="python -m tests.truthfulness.claims")
    parser.add_argument("--looks", type=int, default=LOOKS, help="of each scenario")
    parser.add_argument("--seed", type=int, default=SEED)
    asked = parser.parse_args()
    print(claims_section(looks=asked.looks, seed=asked.seed, workers=2))


if __name__ == "__main__":
    main()
