"""What an injury is: tissue, pathology, onset, mechanism and days lost, by body area.

Words are those of the IOC consensus statement (Bahr et al. 2020, Br J Sports Med 54:372-389).
"""

from dataclasses import dataclass

import numpy as np

from seasonboard.sample.draws import Draws, Ints
from seasonboard.sample.rates import AREAS
from seasonboard.sample.truth import truth

ACUTE, REPETITIVE, GRADUAL = 0, 1, 2
ONSETS = ("acute sudden", "repetitive sudden", "repetitive gradual")
DIRECT, INDIRECT, NONE = 0, 1, 2
MECHANISMS = ("direct contact", "indirect contact", "non-contact")

_MT, _BONE, _LIG, _SKIN = (
    "muscle/tendon",
    "bone",
    "ligament/joint capsule",
    "superficial tissues/skin",
)
_CART = "cartilage/synovium/bursa"


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """One kind of injury: its words, how it comes about, and its median of days lost."""

    tissue: str
    pathology: str
    onset: int
    mechanism: int
    days: float


_STRAIN = Diagnosis(_MT, "muscle injury", ACUTE, NONE, 9)
_BRUISE = Diagnosis(_MT, "muscle contusion", ACUTE, DIRECT, 4)
_TENDON = Diagnosis(_MT, "tendinopathy", GRADUAL, NONE, 7)
_FRACTURE = Diagnosis(_BONE, "fracture", ACUTE, DIRECT, 32)
_STRESS = Diagnosis(_BONE, "bone stress injury", GRADUAL, NONE, 30)
_BONE_BRUISE = Diagnosis(_BONE, "bone contusion", ACUTE, DIRECT, 6)
_SPRAIN = Diagnosis(_LIG, "joint sprain", ACUTE, NONE, 9)
_JAM = Diagnosis(_LIG, "joint sprain", ACUTE, INDIRECT, 6)
_SKIN_BRUISE = Diagnosis(_SKIN, "contusion", ACUTE, DIRECT, 2)
_CUT = Diagnosis(_SKIN, "laceration", ACUTE, DIRECT, 2)
_GRAZE = Diagnosis(_SKIN, "abrasion", ACUTE, DIRECT, 1)
_BRAIN = Diagnosis("nervous", "brain/spinal cord injury", ACUTE, DIRECT, 11)
_CARTILAGE = Diagnosis(_CART, "cartilage injury", ACUTE, NONE, 25)
_SYNOVITIS = Diagnosis(_CART, "synovitis/capsulitis", REPETITIVE, NONE, 6)
_UNCLEAR = Diagnosis("non-specific", "injury without tissue type specified", REPETITIVE, NONE, 3)

_LONG_BONE = ((_BRUISE, 5), (_FRACTURE, 1), (_SKIN_BRUISE, 2), (_GRAZE, 1))
_TRUNK = ((_STRAIN, 4), (_BRUISE, 3), (_UNCLEAR, 2))
COMMON: dict[str, tuple[tuple[Diagnosis, float], ...]] = {
    "head": ((_BRAIN, 7), (_CUT, 2), (_SKIN_BRUISE, 1)),
    "neck": ((_STRAIN, 3), (_JAM, 1)),
    "shoulder": ((_SPRAIN, 3), (_JAM, 2), (_TENDON, 2), (_CARTILAGE, 1), (_BRUISE, 2)),
    "upper arm": _LONG_BONE,
    "elbow": ((_SPRAIN, 2), (_TENDON, 1), (_BONE_BRUISE, 1)),
    "forearm": _LONG_BONE,
    "wrist": ((_SPRAIN, 3), (_FRACTURE, 1), (_TENDON, 1)),
    "hand": ((_JAM, 5), (_FRACTURE, 2), (_BONE_BRUISE, 2), (_CUT, 1)),
    "chest": ((_BONE_BRUISE, 3), (_BRUISE, 3), (_FRACTURE, 1)),
    "thoracic spine": _TRUNK,
    "lumbosacral": _TRUNK,
    "abdomen": ((_STRAIN, 4), (_BRUISE, 1)),
    "hip/groin": ((_STRAIN, 6), (_TENDON, 2), (_CARTILAGE, 1)),
    "thigh": ((_STRAIN, 7), (_BRUISE, 3)),
    "knee": ((_SPRAIN, 5), (_CARTILAGE, 2), (_TENDON, 2), (_BONE_BRUISE, 1), (_SYNOVITIS, 1)),
    "lower leg": ((_BRUISE, 7), (_BONE_BRUISE, 2), (_STRAIN, 2), (_STRESS, 1), (_FRACTURE, 0.5),
                  (_CUT, 1)),
    "ankle": ((_SPRAIN, 8), (_JAM, 2), (_BONE_BRUISE, 1), (_TENDON, 1)),
    "foot": ((_BONE_BRUISE, 3), (_STRESS, 1), (_SPRAIN, 2), (_TENDON, 2)),
}  # fmt: skip
DIAGNOSES = tuple(pair[0] for area in AREAS for pair in COMMON[area])


def diagnose(area: Ints, draws: Draws) -> tuple[Ints, Ints]:
    """A diagnosis (position in DIAGNOSES) and days lost for each area (position in AREAS)."""
    steps = np.cumsum(
        np.concatenate(
            [
                np.array([pair[1] for pair in COMMON[name]]) / sum(p[1] for p in COMMON[name])
                for name in AREAS
            ]
        )
    )  # each area spans one unit
    found = np.searchsorted(steps, area + draws.uniform(len(area)) * 0.999_999, side="right")
    found = np.minimum(found, len(DIAGNOSES) - 1).astype(np.int64)
    median = np.array([diagnosis.days for diagnosis in DIAGNOSES])[found]
    lost = 1 + np.floor(draws.skewed(len(area), median - 0.5, shape=2.0)).astype(np.int64)
    none = draws.chance(len(area), truth().zero_day_share)
    return found, np.where(none, 0, np.minimum(lost, 240))
