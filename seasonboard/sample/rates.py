"""The planted injury rates: by sport, area and position group. Invented, in a believable range."""

from collections.abc import Mapping
from types import MappingProxyType

SPORTS = ("soccer", "ice hockey", "lacrosse", "basketball", "softball")

MIDLINE = ("head", "neck", "chest", "thoracic spine", "lumbosacral", "abdomen")
AREAS = (
    "head", "neck", "shoulder", "upper arm", "elbow", "forearm", "wrist", "hand", "chest",
    "thoracic spine", "lumbosacral", "abdomen", "hip/groin", "thigh", "knee", "lower leg",
    "ankle", "foot",
)  # fmt: skip

# Injuries per 1000 practice exposures, both sides together, late in the season, no guard worn.
_ROWS = {
    "soccer": (
        0.25, 0.03, 0.10, 0.02, 0.02, 0.03, 0.08, 0.36, 0.06,
        0.02, 0.15, 0.05, 0.40, 0.60, 0.50, 2.10, 0.75, 0.30,
    ),
    "ice hockey": (
        0.40, 0.05, 0.50, 0.04, 0.08, 0.06, 0.20, 1.10, 0.12,
        0.02, 0.12, 0.05, 0.45, 0.30, 0.40, 1.15, 0.30, 0.25,
    ),
    "lacrosse": (
        0.35, 0.04, 0.30, 0.04, 0.06, 0.08, 0.20, 1.50, 0.15,
        0.02, 0.15, 0.05, 0.30, 0.50, 0.45, 1.70, 0.55, 0.20,
    ),
    "basketball": (
        0.35, 0.02, 0.15, 0.01, 0.04, 0.02, 0.12, 0.85, 0.03,
        0.02, 0.20, 0.03, 0.25, 0.30, 0.55, 0.30, 1.10, 0.35,
    ),
    "softball": (
        0.30, 0.02, 0.45, 0.05, 0.15, 0.06, 0.15, 1.10, 0.06,
        0.02, 0.15, 0.04, 0.20, 0.30, 0.30, 0.75, 0.40, 0.20,
    ),
}  # fmt: skip
BASE_RATES: Mapping[str, Mapping[str, float]] = MappingProxyType(
    {
        sport: MappingProxyType(dict(zip(AREAS, rates, strict=True)))
        for sport, rates in _ROWS.items()
    }
)

# Groups of each sport, and how much more often each area is hurt there; areas not named: 1.
POSITION_FACTORS: Mapping[str, Mapping[str, Mapping[str, float]]] = MappingProxyType(
    {
        "soccer": {
            "goalkeeper": {"hand": 4.0, "wrist": 3.0, "shoulder": 2.5, "lower leg": 0.3},
            "defender": {"head": 1.4, "lower leg": 0.7},
            "midfielder": {"lower leg": 1.3, "thigh": 1.2},
            "forward": {"lower leg": 1.8, "ankle": 1.3, "thigh": 1.3},
        },
        "ice hockey": {
            "goaltender": {"hip/groin": 2.0, "knee": 1.4, "hand": 0.5, "lower leg": 0.3},
            "defender": {"lower leg": 1.5, "foot": 1.5},
            "forward": {"hand": 1.3, "shoulder": 1.2, "lower leg": 0.9},
        },
        "lacrosse": {
            "goalkeeper": {"hand": 2.2, "lower leg": 1.6, "chest": 1.6},
            "defender": {"hand": 0.8, "lower leg": 0.8},
            "midfielder": {"hand": 1.2, "lower leg": 1.3},
            "attacker": {"hand": 1.4, "lower leg": 0.9},
        },
        "basketball": {
            "backcourt": {"hand": 1.2},
            "frontcourt": {"ankle": 1.2, "knee": 1.2, "hand": 0.8},
        },
        "softball": {
            "pitcher": {"shoulder": 2.0, "lower leg": 1.6},
            "catcher": {"hand": 2.5, "knee": 2.0, "lower leg": 0.8},
            "infielder": {"hand": 1.3, "lower leg": 1.4},
            "outfielder": {"hand": 0.6, "lower leg": 0.6},
        },
    }
)
GROUPS = tuple((sport, group) for sport in SPORTS for group in POSITION_FACTORS[sport])

# Share of a position group that is offered a guard of a kind over a season.
OFFERED: Mapping[str, Mapping[str, Mapping[str, float]]] = MappingProxyType(
    {
        "soccer": {
            "shin": {"goalkeeper": 0.3, "defender": 0.6, "midfielder": 0.9, "forward": 0.97},
            "thumb": {"goalkeeper": 0.9},
            "ankle": {"midfielder": 0.12, "forward": 0.2},
        },
        "ice hockey": {
            "shin": {"goaltender": 0.1, "defender": 0.9, "forward": 0.6},
            "thumb": {"goaltender": 0.15, "defender": 0.35, "forward": 0.65},
            "wrist": {"defender": 0.1, "forward": 0.15},
            "shoulder": {"forward": 0.12},
        },
        "lacrosse": {
            "shin": {"goalkeeper": 0.9, "defender": 0.5, "midfielder": 0.85, "attacker": 0.6},
            "thumb": {"goalkeeper": 0.95, "defender": 0.5, "midfielder": 0.75, "attacker": 0.85},
            "chest": {"goalkeeper": 0.6},
            "shoulder": {"midfielder": 0.08, "attacker": 0.12},
        },
        "basketball": {
            "thumb": {"backcourt": 0.5, "frontcourt": 0.3},
            "ankle": {"backcourt": 0.25, "frontcourt": 0.4},
            "knee": {"frontcourt": 0.2},
        },
        "softball": {
            "shin": {"pitcher": 0.7, "catcher": 0.3, "infielder": 0.6, "outfielder": 0.2},
            "thumb": {"catcher": 0.9, "infielder": 0.55, "outfielder": 0.2},
            "knee": {"catcher": 0.4},
        },
    }
)
