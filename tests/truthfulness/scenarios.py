"""The seasons that are simulated: what differs between them, and which intervals should hold."""

from dataclasses import dataclass

RATIOS = (1.0, 0.6, 0.3)
"""The planted rate ratios guarded / bare; 1 is no effect."""


@dataclass(frozen=True, slots=True)
class Variation:
    """One kind of season.

    `injuries` is how many a season has without guards, repeats counted; `frailty` the variance of
    the gamma factor between athletes. `traps` off means one rate for all athletes, sessions and
    weeks. `by_need` (indication): high-risk position groups and those who play most games take up
    more. `after_injury`: an injury brings on a guard. `own_risk`: the frail take up more.
    `absence` off means that nobody misses a session after an injury; `take_up` multiplies the
    share of athletes who take a guard. `free_of_model` names the intervals whose model does not
    hold here, by how their names begin.
    """

    name: str
    says: str
    injuries: float = 40.0
    frailty: float = 0.0
    traps: bool = True
    by_need: bool = True
    after_injury: bool = False
    own_risk: bool = False
    absence: bool = True
    take_up: float = 1.0
    free_of_model: tuple[str, ...] = ("crude",)
    ratios: tuple[float, ...] = RATIOS


@dataclass(frozen=True, slots=True)
class Scenario:
    """A kind of season with a planted ratio; `number` goes into the seed."""

    variation: Variation
    ratio: float
    number: int


_BETWEEN = ("crude", "alike athletes", "same session", "peek-proof")

VARIATIONS = (
    Variation("plain", "all the traps, athletes of one position group alike"),
    Variation("frailty 0.5", "athletes differ in risk (gamma, variance 0.5)", frailty=0.5),
    Variation("frailty 1.5", "athletes differ strongly in risk (gamma, variance 1.5)", frailty=1.5),
    Variation("few injuries", "8 injuries a season without guards", injuries=8),
    Variation("many injuries", "100 injuries a season without guards", injuries=100),
    Variation(
        "many, frailty 1.5",
        "100 injuries a season, athletes differ strongly",
        injuries=100,
        frailty=1.5,
        ratios=(1.0, 0.3),
    ),
    Variation(
        "many, nobody out",
        "100 injuries a season, and nobody misses a session after one",
        injuries=100,
        absence=False,
        ratios=(1.0,),
    ),
    Variation(
        "guard after injury",
        "an injury to a bare site brings on a guard, six times in ten",
        frailty=0.5,
        after_injury=True,
    ),
    Variation(
        "guard by own risk",
        "athletes who are at more risk than their group take up more",
        frailty=0.5,
        own_risk=True,
        free_of_model=_BETWEEN,
        ratios=(1.0, 0.3),
    ),
    Variation(
        "no indication",
        "as plain, but all position groups take up alike and play alike many games",
        by_need=False,
    ),
    Variation(
        "level field",
        "no traps at all: one rate for every athlete, session and week",
        traps=False,
        by_need=False,
        free_of_model=(),
        ratios=(1.0, 0.3),
    ),
)

SCENARIOS = tuple(
    Scenario(variation, ratio, 10 * i + j)
    for i, variation in enumerate(VARIATIONS)
    for j, ratio in enumerate(variation.ratios)
)


def scenario(name: str, ratio: float) -> Scenario:
    """Return one scenario by the name of its variation and its ratio."""
    return next(s for s in SCENARIOS if s.variation.name == name and s.ratio == ratio)
