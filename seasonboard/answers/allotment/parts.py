"""What the Allotment answer is made of."""

from dataclasses import dataclass

from seasonboard.answers.allotment.department_prints import DepartmentPrints
from seasonboard.answers.base import Summary


@dataclass(frozen=True, slots=True)
class AllotmentAnswer:
    """Prints by week against each department's plan."""

    summary: Summary
    departments: tuple[DepartmentPrints, ...]
