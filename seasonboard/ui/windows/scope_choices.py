"""What can be chosen for each part of the scope, and the scope that a choice makes."""

from collections.abc import Collection
from dataclasses import replace
from datetime import date, timedelta

from seasonboard.scope import (
    CHOICES,
    LISTS,
    PARTS,
    Scope,
    ScopeValues,
    with_through,
    with_values,
    with_word,
)
from seasonboard.sentence import join
from seasonboard.ui.widgets.sentence import MORE
from seasonboard.ui.windows.chooser import Choice, ChooserPrompt
from seasonboard.ui.windows.value_entry import EntryScreen, ValuePrompt, ValueStep

ALL = "all"
LEVELS = ("0.8", "0.9", "0.95", "0.99")
LEVEL = "level"
THROUGH = "through"
_STEPS = (
    ValueStep("−1 week", "pageup", -7),
    ValueStep("−1 day", "up", -1),
    ValueStep("+1 day", "down", 1),
    ValueStep("+1 week", "pagedown", 7),
)
_BESIDE = {
    "preventive": "sites never hurt before, guards made to prevent",
    "return": "sites hurt before, guards made to return",
    "all": "both together",
    "time loss": "injuries with at least one day lost",
    "any": "every recorded injury",
    "both": "games and practices",
}
_REFUSED = "not offered: its department is not chosen"


def question(
    part: str, scope: Scope, known: ScopeValues, uses: Collection[str] | None = None
) -> ChooserPrompt:
    """Return what the list of a part asks; `more` asks which part, of those that a screen uses."""
    if part == MORE:
        used = [name for name in PARTS if uses is None or name in uses]
        listed = [Choice(name, name, present(name, scope, known)) for name in used]
        return ChooserPrompt("Which part of the scope?", listed)
    if part == LEVEL:
        levels = [Choice(level, f"{float(level) * 100:g} %") for level in LEVELS]
        return ChooserPrompt("Level of the limits", levels, frozenset({f"{scope.level:g}"}))
    title = part[:1].upper() + part[1:]
    if part in CHOICES:
        words = [member.value for member in CHOICES[part]]
        choices = [Choice(word, word, _BESIDE.get(word, "")) for word in words]
        return ChooserPrompt(title, choices, frozenset({getattr(scope, part).value}))
    outside = known.outside(scope.departments) if part == "team" else {}
    choices = [
        Choice(ALL, ALL),
        *(
            Choice(k.value, k.name, refused=_REFUSED if k.value in outside else "")
            for k in known.values.get(part, ())
        ),
    ]
    chosen = _chosen(part, scope, known)
    return ChooserPrompt(title, choices, chosen, several=True, everything=ALL)


def _chosen(part: str, scope: Scope, known: ScopeValues) -> frozenset[str]:
    held = getattr(scope, LISTS[part])
    kinds = known.kinds_made or tuple(kind.value for kind in known.values.get("kind", ()))
    is_all = not held or (part == "kind" and tuple(held) == kinds)
    return frozenset({ALL} if is_all else held)


def present(part: str, scope: Scope, known: ScopeValues) -> str:
    """Return what a part says now, in a few words."""
    if part == THROUGH:
        return scope.through.isoformat()
    if part == LEVEL:
        return f"{scope.level * 100:g} %"
    if part in CHOICES:
        return str(getattr(scope, part).value)
    return join([known.name_of(part, value) for value in sorted(_chosen(part, scope, known))])


def chosen(part: str, values: tuple[str, ...], scope: Scope, known: ScopeValues) -> Scope:
    """Return the scope with one part as chosen.

    Raises:
        ScopeError: A value is not known.
    """
    if part == LEVEL:
        return replace(scope, level=float(values[0]))
    if part in CHOICES:
        return with_word(scope, part, values[0])
    return with_values(scope, part, [] if ALL in values else values, known)


def through_entry(scope: Scope, known: ScopeValues) -> EntryScreen[Scope]:
    """Return what asks for the last day known; its steps go never past the last one recorded."""
    span = ""
    if known.first_day is not None and known.last_day is not None:
        span = f" Recorded: {known.first_day.isoformat()} to {known.last_day.isoformat()}."
    last = known.last_day or date.max

    def move(text: str, by: int) -> str:
        try:
            moved = date.fromisoformat(text.strip()) + timedelta(days=by)
        except (ValueError, OverflowError):
            return last.isoformat()
        return min(moved, last).isoformat()

    prompt = ValuePrompt(
        "Through which day?",
        scope.through.isoformat(),
        f"As the board would have looked on that day: a date, or “last”.{span}",
        _STEPS,
    )
    return EntryScreen(prompt, lambda text: with_through(scope, text, known), move)
