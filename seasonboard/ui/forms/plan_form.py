"""The form of what a pitch is planned with: take-up, price, prints, weeks; empty is as recorded."""

import math
import re
from collections.abc import Mapping
from dataclasses import replace

from seasonboard.answers.pitch.answer import refuse
from seasonboard.answers.pitch.options import FEES, SEED, EffectLimits, PitchOptions
from seasonboard.answers.pitch.parts import PitchAnswer
from seasonboard.answers.pitch.words import value_words
from seasonboard.errors import IntakeError, Problem, ScopeError
from seasonboard.scope import Scope, View
from seasonboard.ui.forms.form import FieldKind, FormField, FormValues, InputForm

_LIMITS, _CURRENCY = "limits", "currency"
_WHOLE = frozenset({"printers", "seed"})
_ENOUGH = "empty: enough for the busiest week"
_FIELDS = (
    ("take_up", "take-up", "a share, 0.6 or 60 %; {take-up}"),
    ("weeks", "weeks", "of the season; {weeks of the season}"),
    ("scan_before", "scan before", "weeks before the first session; empty: 0"),
    ("scan_weeks", "scan weeks", "over how many weeks athletes are scanned; empty: 2"),
    ("hours_per_print", "hours a print", "{hours a print}"),
    ("printers", "printers", f"placed in their building; {_ENOUGH}"),
    ("printer_hours", "hours a week", "that each printer may run; empty: 168"),
    ("printer_setup", "set-up fee", "printer plan, once"),
    ("printer_monthly", "monthly fee", "printer plan"),
    ("printer_per_print", "fee a print", "printer plan; remakes are free"),
    ("prints_per_week", "prints a week", f"the weekly maximum; {_ENOUGH}"),
    ("weekly_setup", "set-up fee", "weekly plan, once"),
    ("weekly_monthly", "monthly fee", "weekly plan"),
    ("weekly_per_print", "fee a print", "weekly plan; remakes are free"),
    ("currency", "currency", "of all fees, as USD"),
    ("seed", "seed", f"of the simulation, a whole number; empty: {SEED}"),
)
_NUMBERS = tuple(name for name, *_ in _FIELDS if name != _CURRENCY)
_TOLD = re.compile(r"\{(.+)\}")


def plan_form(answer: PitchAnswer | None) -> InputForm:
    """Return the form; what an empty field stands for is told from the answer in sight."""
    fields = [
        FormField(name, title, hint=_TOLD.sub(lambda match: _empty(answer, match[1]), hint))
        for name, title, hint in _FIELDS
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
    return texts | {_LIMITS: options.limits.value, _CURRENCY: options.currency}


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
    currency = values.get(_CURRENCY, "").strip()
    problems += _together(given, currency)
    if problems:
        raise IntakeError("The plan cannot be taken so.", problems)
    limits = EffectLimits(values.get(_LIMITS) or EffectLimits.ORDINARY)
    usual = PitchOptions()
    numbers = {name: given.get(name, getattr(usual, name)) for name in _NUMBERS}
    return replace(options, **numbers, limits=limits, currency=currency)


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
    if name in FEES:
        alone = replace(alone, currency="any")
    try:
        refuse(scope, alone)
    except ScopeError as refused:
        hint = refused.hint[:1].lower() + refused.hint[1:]
        return [Problem("", None, name, text, f"cannot be planned with; {hint}")]
    return []


def _together(given: Mapping[str, object], currency: str) -> list[Problem]:
    """Return what is wrong with fields that do not go together."""
    problems = []
    if "printer_hours" in given and "printers" not in given:
        said = "is needed where their hours are given."
        problems.append(Problem("", None, "printers", None, said))
    if not currency and given.keys() & set(FEES):
        said = "is needed where a fee is given; write it as USD."
        problems.append(Problem("", None, _CURRENCY, None, said))
    return problems
