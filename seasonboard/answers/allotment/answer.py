"""Do the prints keep to the plan? Prints by week against allotments and printers' hours."""

from seasonboard.answers import words
from seasonboard.answers.allotment.department_prints import DepartmentPrints, department_prints
from seasonboard.answers.allotment.parts import AllotmentAnswer
from seasonboard.answers.base import Summary, left_out_rows
from seasonboard.answers.questions import ALLOTMENT
from seasonboard.answers.reader import Reader, asked_of
from seasonboard.scope import Scope, ScopeValues


def allotment(reader: Reader, scope: Scope, scope_values: ScopeValues) -> AllotmentAnswer:
    """Count prints week by week for each department of the scope."""
    asked = asked_of(scope, "allotment/weeks", "allotment/left_out")
    weeks, left_out = reader.read_each(asked)
    departments = tuple(
        department_prints(part, scope_values)
        for part in weeks.partition_by("department", maintain_order=True)
    )
    caveats = tuple(_caveats(departments, scope, scope_values))
    sentence = " ".join(_sentence(one) for one in departments)
    sentence = sentence or "Nothing to print yet: no order of the scope is known."
    left = left_out_rows(left_out)
    return AllotmentAnswer(Summary(ALLOTMENT.asks, sentence, caveats, left, scope), departments)


def _sentence(own: DepartmentPrints) -> str:
    if not own.whole_weeks:
        return f"{own.name}: no whole week is known yet; {own.queue} waiting to be printed."
    weeks = words.plural(own.whole_weeks, "whole week")
    text = f"{own.name}: {words.plural(own.prints, 'print')} in {weeks}"
    if own.used is not None:
        over = "week was" if own.weeks_over == 1 else "weeks were"
        text += (
            f", {words.percent(own.used)} of {own.prints_per_week} a week; "
            f"{own.weeks_over} {over} over it"
        )
    elif own.hours_share is not None:
        text += (
            f", {own.hours:.0f} printer hours, {words.percent(own.hours_share)} of those of "
            f"{words.plural(own.printers, 'printer')}"
        )
    return f"{text}; {own.queue} waiting now, {own.longest_queue} at most."


def _caveats(
    departments: tuple[DepartmentPrints, ...], scope: Scope, scope_values: ScopeValues
) -> list[str]:
    if not departments:
        return []
    caveats = ["A week is from Monday to Sunday; sums are of whole weeks only."]
    if any(department.hours_share is not None for department in departments):
        caveats.append(
            "Available are the hours a week that printers are listed with; without, all 168."
        )
    missing = sum(department.without_hours for department in departments)
    if missing:
        guards = words.plural(missing, "print")
        caveats.append(f"{guards} without hours recorded: the hours used are a lower bound.")
    narrowed = (scope.seasons, scope.teams, scope.sports, scope.sexes, scope.position_groups)
    is_part = set(scope_values.kinds_made) - set(scope.kinds) or scope.areas or scope.sides
    if is_part or any(narrowed):
        caveats.append(
            "The scope leaves out orders of the department that use the same allotment or printer."
        )
    return caveats
