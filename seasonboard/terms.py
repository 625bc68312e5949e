"""The closed word lists: the trade's words, spelled one way everywhere.

Body areas, tissue, pathology, onset, mechanism and history are the terms of the IOC consensus
statement (Bahr et al. 2020, Br J Sports Med 54:372-389, tables 2, 4 and 5).
"""

from difflib import get_close_matches
from enum import StrEnum


class Plan(StrEnum):
    """How a department gets its prints."""

    ONSITE_PRINTER = "onsite printer"
    WEEKLY_ALLOTMENT = "weekly allotment"


class Sex(StrEnum):
    """Who plays in a team."""

    WOMEN = "women"
    MEN = "men"
    MIXED = "mixed"


class Setting(StrEnum):
    """What kind of session it was."""

    GAME = "game"
    PRACTICE = "practice"


class SeasonPart(StrEnum):
    """Where in the season a session falls."""

    PRESEASON = "preseason"
    REGULAR = "regular"
    POSTSEASON = "postseason"


class Part(StrEnum):
    """How an athlete took part in a session; without a row it is not recorded."""

    FULL = "full"
    LIMITED = "limited"
    OUT = "out"


class OutReason(StrEnum):
    """Why an athlete was limited or out."""

    INJURY = "injury"
    ILLNESS = "illness"
    SELECTION = "selection"
    PERSONAL = "personal"
    OTHER = "other"


class Side(StrEnum):
    """Left, right, both, or on the midline of the body."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"
    MIDLINE = "midline"


class Purpose(StrEnum):
    """Why a guard was made."""

    PREVENTIVE = "preventive"
    RETURN = "return"


class Function(StrEnum):
    """What a guard is for: taking impact, or support."""

    IMPACT = "impact"
    SUPPORT = "support"


class ScanMethod(StrEnum):
    """How the body was scanned."""

    SCANNER = "scanner"
    PHONE = "phone"


class Stage(StrEnum):
    """The stages of a guard, in their usual order; the last two end it."""

    REQUESTED = "requested"
    SCANNED = "scanned"
    MODELLED = "modelled"
    PRINTED = "printed"
    FINISHED = "finished"
    SHIPPED = "shipped"
    DELIVERED = "delivered"
    FITTED = "fitted"
    RETIRED = "retired"
    CANCELLED = "cancelled"


class RemakeReason(StrEnum):
    """Why a guard was made again; the first four are remakes, the rest replacements."""

    FIT = "fit"
    DAMAGE = "damage"
    PRINT_FAULT = "print fault"
    SCAN_FAULT = "scan fault"
    LOST = "lost"
    BODY_CHANGE = "body change"
    WORN_OUT = "worn out"


class YesNo(StrEnum):
    """Whether something was so; nothing where it was not recorded."""

    YES = "yes"
    NO = "no"


class KeptOn(StrEnum):
    """Whether a guard stayed on for all of a session."""

    ALL = "all"
    PART = "part"


class Area(StrEnum):
    """Body areas (IOC 2020, table 4)."""

    HEAD = "head"
    NECK = "neck"
    SHOULDER = "shoulder"
    UPPER_ARM = "upper arm"
    ELBOW = "elbow"
    FOREARM = "forearm"
    WRIST = "wrist"
    HAND = "hand"
    CHEST = "chest"
    THORACIC_SPINE = "thoracic spine"
    LUMBOSACRAL = "lumbosacral"
    ABDOMEN = "abdomen"
    HIP_GROIN = "hip/groin"
    THIGH = "thigh"
    KNEE = "knee"
    LOWER_LEG = "lower leg"
    ANKLE = "ankle"
    FOOT = "foot"
    UNSPECIFIED = "region unspecified"
    MULTIPLE = "multiple"


MIDLINE_AREAS = frozenset(
    {Area.HEAD, Area.NECK, Area.CHEST, Area.THORACIC_SPINE, Area.LUMBOSACRAL, Area.ABDOMEN}
)
"""Areas on the midline: their only side is `midline`."""

SIDELESS_AREAS = frozenset({Area.UNSPECIFIED, Area.MULTIPLE})
"""Areas for which any side may be written."""


class Tissue(StrEnum):
    """Tissue (IOC 2020, table 5)."""

    MUSCLE_TENDON = "muscle/tendon"
    NERVOUS = "nervous"
    BONE = "bone"
    CARTILAGE = "cartilage/synovium/bursa"
    LIGAMENT = "ligament/joint capsule"
    SKIN = "superficial tissues/skin"
    VESSELS = "vessels"
    STUMP = "stump"
    ORGANS = "internal organs"
    NON_SPECIFIC = "non-specific"


class Pathology(StrEnum):
    """Pathology types (IOC 2020, table 5)."""

    MUSCLE_INJURY = "muscle injury"
    MUSCLE_CONTUSION = "muscle contusion"
    COMPARTMENT = "muscle compartment syndrome"
    TENDINOPATHY = "tendinopathy"
    TENDON_RUPTURE = "tendon rupture"
    BRAIN = "brain/spinal cord injury"
    NERVE = "peripheral nerve injury"
    FRACTURE = "fracture"
    BONE_STRESS = "bone stress injury"
    BONE_CONTUSION = "bone contusion"
    NECROSIS = "avascular necrosis"
    PHYSIS = "physis injury"
    CARTILAGE = "cartilage injury"
    ARTHRITIS = "arthritis"
    SYNOVITIS = "synovitis/capsulitis"
    BURSITIS = "bursitis"
    SPRAIN = "joint sprain"
    INSTABILITY = "chronic instability"
    CONTUSION = "contusion"
    LACERATION = "laceration"
    ABRASION = "abrasion"
    VASCULAR = "vascular trauma"
    STUMP = "stump injury"
    ORGAN = "organ trauma"
    NO_TISSUE = "injury without tissue type specified"


class Onset(StrEnum):
    """Mode of onset (IOC 2020)."""

    ACUTE_SUDDEN = "acute sudden"
    REPETITIVE_SUDDEN = "repetitive sudden"
    REPETITIVE_GRADUAL = "repetitive gradual"


class Mechanism(StrEnum):
    """Contact (IOC 2020, table 2)."""

    DIRECT_CONTACT = "direct contact"
    INDIRECT_CONTACT = "indirect contact"
    NON_CONTACT = "non-contact"


class History(StrEnum):
    """How an injury stands to an earlier one (IOC 2020)."""

    NEW = "new"
    LOCAL = "local"
    REINJURY = "reinjury"
    EXACERBATION = "exacerbation"


class OfferAnswer(StrEnum):
    """What an athlete said to the offer of a guard."""

    ACCEPTED = "accepted"
    DECLINED = "declined"
    UNDECIDED = "undecided"


KINDS: tuple[tuple[str, Area, Function], ...] = (
    ("thumb", Area.HAND, Function.SUPPORT),
    ("hand", Area.HAND, Function.IMPACT),
    ("wrist", Area.WRIST, Function.SUPPORT),
    ("forearm", Area.FOREARM, Function.IMPACT),
    ("elbow", Area.ELBOW, Function.IMPACT),
    ("shoulder", Area.SHOULDER, Function.IMPACT),
    ("chest", Area.CHEST, Function.IMPACT),
    ("lower back", Area.LUMBOSACRAL, Function.SUPPORT),
    ("hip", Area.HIP_GROIN, Function.IMPACT),
    ("thigh", Area.THIGH, Function.IMPACT),
    ("knee", Area.KNEE, Function.SUPPORT),
    ("shin", Area.LOWER_LEG, Function.IMPACT),
    ("ankle", Area.ANKLE, Function.SUPPORT),
    ("foot", Area.FOOT, Function.IMPACT),
)
"""The guard kinds a new store starts with: kind, area covered, usual function."""


def nearest(word: str, known: list[str]) -> str | None:
    """Return the known word closest to `word`, or None when none is near."""
    folded = {name.casefold(): name for name in known}
    close = get_close_matches(word.strip().casefold(), list(folded), n=1, cutoff=0.6)
    return folded[close[0]] if close else None
