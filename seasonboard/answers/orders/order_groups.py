"""What orders are grouped by, and one group of them."""

from dataclasses import dataclass
from enum import StrEnum

FEWEST = 10
"""Orders below which a group is too small to be ranked or called different."""


class OrdersBy(StrEnum):
    """What orders are grouped by."""

    DEPARTMENT = "department"
    PLAN = "plan"
    KIND = "kind"
    SCAN_METHOD = "scan-method"
    PRINTER = "printer"


@dataclass(frozen=True, slots=True)
class OrderGroup:
    """One group of orders: by what, its key (empty where that is not recorded), and its name."""

    by: OrdersBy
    key: str
    name: str
