"""What the Remakes answer is asked with."""

from dataclasses import dataclass
from enum import StrEnum

from seasonboard.answers.options import option

WINDOW = 30
"""Days after fitting within which a remake tells of the making rather than of the wearing."""


class RemakesBy(StrEnum):
    """What the groups of the answer are."""

    KIND = "kind"
    SCAN_METHOD = "scan-method"
    PRINTER = "printer"
    DEPARTMENT = "department"
    SIDE = "side"
    CONTACT = "contact"
    PURPOSE = "purpose"
    MATERIAL = "material"
    LOT = "lot"
    PROFILE = "profile"
    OPERATOR = "operator"
    SCAN_QUALITY = "scan-quality"
    MODEL_VERSION = "model-version"
    INSPECTION = "inspection"


@dataclass(frozen=True, slots=True)
class RemakesOptions:
    """How the answer is broken down, and the days after fitting that are looked at."""

    by: RemakesBy = option(RemakesBy.KIND, "--by", "What the groups are.")
    window: int = option(
        WINDOW, "--window", "Days after fitting within which a remake is looked at."
    )
    group_reasons: bool = option(
        False, "--group-reasons", "In text, the reasons of every group too (JSON has them)."
    )
