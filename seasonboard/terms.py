"""The closed word lists: the trade's words, spelled one way everywhere.

Body areas, tissue, pathology, onset, mechanism and history are the terms of the IOC consensus
statement (Bahr et al. 2020, Br J Sports Med 54:372-389, tables 2, 4 and 5).
"""

import unicodedata
from difflib import get_close_matches
from enum import StrEnum

PLANS = ("onsite printer", "weekly allotment")
"""How a department gets its prints."""


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


SCAN_METHODS = ("scanner", "phone")
"""How the body was scanned."""

SCAN_QUALITIES = ("good", "usable", "rescan")
"""How good a scan was; `rescan`: it has to be made again."""

INSPECTIONS = ("passed", "failed")
"""What the inspection of a guard found."""

TO_DO = ("inspect", "replace")
"""What a decision wants done with a guard it marks."""

RULES = ("allowed", "with covering", "not allowed")
"""What a sport's rules say of a guard in games, as a department looked them up."""
NOT_CHECKED = "not checked"
"""What is told where no department looked it up."""


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


REMAKE_REASONS = (
    *("fit", "damage", "print fault", "scan fault"),
    *("lost", "body change", "worn out"),
)
"""Why a guard was made again; the first four are remakes, the rest replacements."""

OUTCOMES = ("time loss", "any")
SETTINGS = ("games", "practices", "both")
COMPARISONS = ("same session", "alike athletes", "same athlete", "other side", "drawn turns")
"""Of a question fixed in advance: which injuries, which sessions, which comparison."""

YES_NO = ("yes", "no")
"""Whether something was so; nothing where it was not recorded."""

TOLD = ("shown", "hidden", "within", "not told")
"""What outsiders are told of a released count: it, that it is hidden, a range, or nothing."""

KEPT_ON = ("all", "part")
"""Whether a guard stayed on for all of a session."""


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


TISSUES = (
    *("muscle/tendon", "nervous", "bone", "cartilage/synovium/bursa"),
    *("ligament/joint capsule", "superficial tissues/skin", "vessels"),
    *("stump", "internal organs", "non-specific"),
)
"""Tissue (IOC 2020, table 5)."""

PATHOLOGIES = (
    *("muscle injury", "muscle contusion", "muscle compartment syndrome", "tendinopathy"),
    *("tendon rupture", "brain/spinal cord injury", "peripheral nerve injury", "fracture"),
    *("bone stress injury", "bone contusion", "avascular necrosis", "physis injury"),
    *("cartilage injury", "arthritis", "synovitis/capsulitis", "bursitis", "joint sprain"),
    *("chronic instability", "contusion", "laceration", "abrasion", "vascular trauma"),
    *("stump injury", "organ trauma", "injury without tissue type specified"),
)
"""Pathology types (IOC 2020, table 5)."""

ONSETS = ("acute sudden", "repetitive sudden", "repetitive gradual")
"""Mode of onset (IOC 2020)."""

MECHANISMS = ("direct contact", "indirect contact", "non-contact")
"""Contact (IOC 2020, table 2)."""

HISTORIES = ("new", "local", "reinjury", "exacerbation")
"""How an injury stands to an earlier one (IOC 2020)."""


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


def searchable(text: str) -> str:
    """Return text as a search compares it: without capitals, accents and curled apostrophes."""
    plain = unicodedata.normalize("NFKD", text.casefold().replace("’", "'"))
    return "".join(letter for letter in plain if not unicodedata.combining(letter))


def nearest(word: str, known: list[str]) -> str | None:
    """Return the known word closest to `word`, or None when none is near."""
    folded = {name.casefold(): name for name in known}
    close = get_close_matches(word.strip().casefold(), list(folded), n=1, cutoff=0.6)
    return folded[close[0]] if close else None
