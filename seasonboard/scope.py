"""The scope: what an answer looks at, as one immutable value."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from seasonboard.errors import ScopeError
from seasonboard.terms import nearest


class View(StrEnum):
    """Which site-exposures are looked at."""

    PREVENTIVE = "preventive"
    RETURN = "return"
    ALL = "all"


class Outcome(StrEnum):
    """Which injuries count."""

    TIME_LOSS = "time loss"
    ANY = "any"


class Settings(StrEnum):
    """Which sessions count."""

    GAMES = "games"
    PRACTICES = "practices"
    BOTH = "both"


@dataclass(frozen=True, slots=True)
class KnownValue:
    """A value the store knows for one part of the scope, as written and as shown."""

    value: str
    name: str
    department: str | None = None
    """Of a team alone: whose it is."""


@dataclass(frozen=True, slots=True)
class ScopeValues:
    """What the store knows: values of every part, and the days it spans."""

    values: Mapping[str, tuple[KnownValue, ...]]
    first_day: date | None
    last_day: date | None
    sessions: int
    guards: int
    kinds_made: tuple[str, ...]
    covers: Mapping[str, tuple[str, ...]]

    @property
    def is_empty(self) -> bool:
        """Say whether nothing was recorded yet."""
        return self.last_day is None

    @property
    def all_kinds(self) -> tuple[str, ...]:
        """Return the kinds of guards made; where none is, all that are known."""
        return self.kinds_made or tuple(k.value for k in self.values.get("kind", ()))

    def name_of(self, part: str, value: str) -> str:
        """Return how a value is shown."""
        return next((k.name for k in self.values.get(part, ()) if k.value == value), value)

    def outside(self, departments: Collection[str] | None) -> dict[str, str]:
        """Return the teams of other departments than these, each with the name of its own."""
        return {
            k.value: self.name_of("department", k.department)
            for k in self.values.get("team", ())
            if departments is not None and k.department and k.department not in departments
        }


@dataclass(frozen=True, slots=True)
class Scope:
    """Everything an answer depends on. A list of None means: all there are.

    `through` is the last day known; `kinds` are the guard kinds whose sites are studied.
    """

    through: date
    seasons: tuple[str, ...] | None = None
    departments: tuple[str, ...] | None = None
    teams: tuple[str, ...] | None = None
    sports: tuple[str, ...] | None = None
    sexes: tuple[str, ...] | None = None
    position_groups: tuple[str, ...] | None = None
    kinds: tuple[str, ...] = ()
    areas: tuple[str, ...] | None = None
    sides: tuple[str, ...] | None = None
    made_of: tuple[str, ...] | None = None
    purpose: View = View.PREVENTIVE
    outcome: Outcome = Outcome.TIME_LOSS
    setting: Settings = Settings.BOTH
    level: float = 0.95

    def settings(self) -> list[str] | None:
        """Return the session settings that count, in the store's words; None for both."""
        return {Settings.GAMES: ["game"], Settings.PRACTICES: ["practice"]}.get(self.setting)

    def params(self) -> dict[str, object]:
        """Return the scope as the parameters that the questions in queries/ take."""
        return {
            **{field: self._listed(part) for part, field in LISTS.items()},
            "until": self.through + timedelta(days=1),
            "settings": self.settings(),
            "purpose": self.purpose.value,
            "outcome": self.outcome.value,
        }

    def resolved(self) -> dict[str, object]:
        """Return every setting by its option's name, for the answer's JSON; None is “all”."""
        season, *others = LISTS
        return {
            season: self._listed(season),
            "through": self.through.isoformat(),
            **{part.replace(" ", "_"): self._listed(part) for part in others},
            **{part: getattr(self, part).value for part in CHOICES},
            "level": self.level,
        }

    def _listed(self, part: str) -> list[str] | None:
        values: tuple[str, ...] | None = getattr(self, LISTS[part])
        return None if values is None else list(values)


LISTS: Mapping[str, str] = {
    "season": "seasons",
    "department": "departments",
    "team": "teams",
    "sport": "sports",
    "sex": "sexes",
    "position group": "position_groups",
    "kind": "kinds",
    "area": "areas",
    "side": "sides",
    "made of": "made_of",
}
"""Parts of the scope that take several values, and the field of `Scope` that holds them."""

CHOICES: Mapping[str, type[StrEnum]] = {"purpose": View, "outcome": Outcome, "setting": Settings}
"""Parts of the scope that take one word of a closed list."""

PARTS = (*LISTS, "through", *CHOICES, "level")
"""Every part of the scope, in the order of the command line's options."""


def read_scope(asked: Mapping[str, str], known: ScopeValues) -> Scope:
    """Turn what a person asked for into a scope.

    Values are by part, as typed; several values of a list are parted by commas. A part left out
    takes everything, the last recorded day, or its default word.

    Raises:
        ScopeError: A part or value is unknown; the message lists the known ones and the nearest.
    """
    for part in asked:
        if part not in PARTS:
            raise _unknown("part of the scope", part, list(PARTS))
    scope = Scope(
        through=_read_through(asked.get("through"), known),
        kinds=known.all_kinds,
        level=_read_level(asked.get("level")),
    )
    for part, text in asked.items():
        if part in LISTS:
            values = [value.strip() for value in text.split(",") if value.strip()]
            scope = with_values(scope, part, values, known)
        elif part in CHOICES:
            scope = with_word(scope, part, text)
    return scope


def with_values(scope: Scope, part: str, values: Sequence[str], known: ScopeValues) -> Scope:
    """Return the scope with one list part changed; no values, or `all`, mean everything.

    Departments take with them the teams chosen before that are not theirs.

    Raises:
        ScopeError: A value is unknown, or a team of none of the departments chosen.
    """
    field = LISTS[part]
    if not values or [v.casefold() for v in values] == ["all"]:
        return _replace(scope, field, known.all_kinds if part == "kind" else None)
    changed = _replace(scope, field, _listed_values(part, values, known))
    outside = known.outside(changed.departments)
    if part == "department":
        kept = tuple(team for team in changed.teams or () if team not in outside)
        return replace(changed, teams=kept or None)
    for team in changed.teams or () if part == "team" else ():
        if team in outside:
            raise ScopeError(
                f"The team “{team}” is of {outside[team]}, which is not among the departments "
                "chosen.",
                "Choose its department too, or all departments.",
            )
    return changed


def _listed_values(part: str, values: Sequence[str], known: ScopeValues) -> tuple[str, ...]:
    choices = known.values.get(part, ())
    found: list[str] = []
    for value in values:
        meant = _meant(value, choices)
        if not meant:
            raise _unknown(part, value, [k.value for k in choices])
        found += meant
    return tuple(dict.fromkeys(found))


def with_word(scope: Scope, part: str, word: str) -> Scope:
    """Return the scope with its purpose, outcome or setting changed.

    Raises:
        ScopeError: The word is not one of the list.
    """
    words = [member.value for member in CHOICES[part]]
    plain = word.strip().casefold().replace("-", " ")
    plain = {"game": "games", "practice": "practices"}.get(plain, plain)
    if plain not in words:
        raise _unknown(part, word, words)
    return _replace(scope, part, CHOICES[part](plain))


def with_through(scope: Scope, text: str, known: ScopeValues) -> Scope:
    """Return the scope as it was known on another day (ISO date, or `last` for the last one).

    Raises:
        ScopeError: It is no date.
    """
    return _replace(scope, "through", _read_through(text, known))


def _replace(scope: Scope, field: str, value: object) -> Scope:
    changes: dict[str, object] = {field: value}
    return replace(scope, **changes)  # type: ignore[arg-type]


def _read_through(text: str | None, known: ScopeValues) -> date:
    if text is None or text.strip().casefold() in {"", "last"}:
        return known.last_day or date(2000, 1, 1)
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        raise ScopeError(
            f"“{text}” is not a date for “through”.", "Write it as 2026-11-14, or “last”."
        ) from None


def _read_level(text: str | None) -> float:
    if text is None:
        return 0.95
    try:
        level = float(text.strip().rstrip("%"))
    except ValueError:
        level = 0.0
    level = level / 100 if level > 1 else level
    if not 0.5 <= level < 1:
        raise ScopeError(f"“{text}” is not a confidence level.", "Write it as 0.95 or 95.")
    return level


def _meant(word: str, choices: Sequence[KnownValue]) -> list[str]:
    """Return the value written so, else in other capitals, else all that are shown so."""
    folded = word.casefold()
    for alike in (
        [k.value for k in choices if k.value == word],
        [k.value for k in choices if k.value.casefold() == folded],
        [k.value for k in choices if k.name.casefold() == folded],
    ):
        if alike:
            return alike
    return []


def _unknown(part: str, value: str, known: list[str]) -> ScopeError:
    near = nearest(value, known)
    hint = f"Known: {', '.join(known)}." if known else "The store holds none."
    if near:
        hint = f"Did you mean “{near}”? {hint}"
    return ScopeError(f"There is no {part} “{value}”.", hint)
