"""The form of what a pitch is planned with: take-up, price, prints, weeks; empty is as recorded."""

import math
from collections.abc import Mapping
from dataclasses import replace

from seasonboard.answers.pitch.answer import refuse
from seasonboard.answers.pitch.inputs import PRINT_HOURS, SEASON, TAKES
from seasonboard.answers.pitch.parts import SEED, EffectLimits, PitchAnswer, PitchOptions
from seasonboard.answers.pitch.words import value_words
from seasonboard.errors import IntakeError, Problem, ScopeError
from seasonboard.scope import Scope, View
from seasonboard.ui.forms.form import FieldKind, FormField, FormValues, InputForm

_WHOLE = frozenset({"printers", "seed"})
_NUMBERS = (
    *("take_up", "price", "prints_per_week", "printers", "printer_hours"),
    *("hours_per_print", "weeks", "seed"),
)
_LIMITS = "limits"


def plan_form(answer: PitchAnswer | None) -> InputForm:
    """Return the form; what an empty field stands for is told from the answer in sight."""
    allotment = "a weekly allotment; empty: by printers, or nothing limits them"
    fields = [
        FormField(column, title, hint=hint)
        for column, title, hint in (
            ("take_up", "take-up", f"a share, 0.6 or 60 %; {_empty(answer, TAKES)}"),
            ("price", "price", "of one guard, in any currency; empty: no cost is told"),
            ("prints_per_week", "prints a week", allotment),
            ("printers", "printers", "on site, in the place of an allotment"),
            ("printer_hours", "hours a week", "that each printer may run; empty: 168"),
            ("hours_per_print", "hours a print", _empty(answer, PRINT_HOURS)),
            ("weeks", "weeks", f"of the season; {_empty(answer, SEASON)}"),
            ("seed", "seed", f"of the simulation, a whole number; empty: {SEED}"),
        )
    ]
    fields.insert(-1, FormField(_LIMITS, "limits", FieldKind.WORD, tuple(EffectLimits)))
    return InputForm("What the pitch is planned with; empty is as recorded", tuple(fields))


def _empty(answer: PitchAnswer | None, name: str) -> str:
    """Return what an empty field stands for."""
    one = None if answer is None else answer.input(name)
    if one is None or one.value is None or one.source == "as asked":
        return "empty: as recorded"
    return f"empty: {value_words(one.value, one.unit)}, {one.source}"


def typed_plan(options: PitchOptions) -> Mapping[str, str]:
    """Return what stands in the form for a plan: nothing where it is as recorded."""
    usual = PitchOptions()
    texts = {
        name: f"{value:.12g}" if isinstance(value, float) else str(value)
        for name in _NUMBERS
        if (value := getattr(options, name)) is not None and value != getattr(usual, name)
    }
    return texts | {_LIMITS: options.limits.value}


def read_plan(values: FormValues, options: PitchOptions, scope: Scope) -> PitchOptions:
    """Return the plan that stands in a form, for the same prospect.

    Raises:
        IntakeError: A field cannot be planned with; its problem is named after its column.
    """
    problems: list[Problem] = []
    given: dict[str, float] = {}
    scope = replace(scope, purpose=View.PREVENTIVE)  # what the screen refuses is told there
    for name in _NUMBERS:
        text = values.get(name, "").strip()
        value = read_number(text, is_whole=name in _WHOLE)
        if value is not None:
            given[name] = value
            problems += _out_of_range(name, text, value, scope)
        elif text:
            kind = "a whole number" if name in _WHOLE else "a number"
            problems.append(Problem("", None, name, text, f"is not {kind}; write one, or nothing."))
    problems += _together(given)
    if problems:
        raise IntakeError("The plan cannot be taken so.", problems)
    limits = EffectLimits(values.get(_LIMITS) or EffectLimits.BY_ATHLETE)
    numbers = {name: given.get(name) for name in _NUMBERS if name != "seed"}
    return replace(options, **numbers, seed=given.get("seed", SEED), limits=limits)  # type: ignore[arg-type]


def read_number(text: str, *, is_whole: bool) -> float | None:
    """Return a typed number, or a whole one; None where it is none, or nothing is typed."""
    if is_whole:
        return int(text) if text.isascii() and text.isdecimal() and len(text) < 20 else None
    return _number(text)


def _number(text: str) -> float | None:
    """Return a number as people type it: `0.6`, `0,6`, `60 %`; None where it is none."""
    plain = text.removesuffix("%").strip().replace(",", ".")
    try:
        value = float(plain) / (100 if text.endswith("%") else 1)
    except ValueError:
        return None
    return value if math.isfinite(value) and plain.isascii() and "_" not in plain else None


def _out_of_range(name: str, text: str, value: float, scope: Scope) -> list[Problem]:
    """Ask the answer's own limits about one number."""
    alone = PitchOptions(**{name: value})  # type: ignore[arg-type]
    if name == "printer_hours":
        alone = replace(alone, printers=1)
    try:
        refuse(scope, alone)
    except ScopeError as refused:
        hint = refused.hint[:1].lower() + refused.hint[1:]
        return [Problem("", None, name, text, f"cannot be planned with; {hint}")]
    return []


def _together(given: Mapping[str, object]) -> list[Problem]:
    """Return what is wrong with fields that do not go together."""
    if "prints_per_week" in given and "printers" in given:
        summary = "prints come from an allotment or from printers; leave one of both empty."
        return [Problem("", None, "printers", None, summary)]
    if "printer_hours" in given and "printers" not in given:
        return [Problem("", None, "printers", None, "is needed where their hours are given.")]
    return []
