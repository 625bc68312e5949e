"""The scope as a sentence that a person can read and change, part by part."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from seasonboard.scope import LISTS, Outcome, Scope, ScopeValues, Settings, View


@dataclass(frozen=True, slots=True)
class Phrase:
    """A stretch of the scope sentence; `part` names what it changes, empty for plain words."""

    text: str
    part: str = ""


def sentence(
    scope: Scope, known: ScopeValues, uses: Collection[str] | None = None
) -> tuple[Phrase, ...]:
    """Return the scope as a sentence in phrases, each tied to the part that it says.

    `uses` names the parts that an answer depends on; the others are not said. None: all of them.

    Together they read, for instance: `Women's soccer at Lanternfield College · 2026 fall ·
    through Sat 14 Nov 2026 · preventive shin guards · time loss · games and practices`.
    """
    phrases = [*_who(scope, known), *_when(scope, known), *_guards(scope)]
    phrases.append(Phrase(_OUTCOME_WORDS[scope.outcome], "outcome"))
    phrases.append(Phrase(_SETTING_WORDS[scope.setting], "setting"))
    if scope.level != 0.95:
        phrases.append(Phrase(f"{scope.level * 100:g} % limits", "level"))
    return tuple(p for p in phrases if uses is None or not p.part or p.part in uses)


_OUTCOME_WORDS = {Outcome.TIME_LOSS: "time loss", Outcome.ANY: "any injury"}
_SETTING_WORDS = {
    Settings.GAMES: "games",
    Settings.PRACTICES: "practices",
    Settings.BOTH: "games and practices",
}
_VIEW_WORDS = {View.PREVENTIVE: "preventive ", View.RETURN: "return ", View.ALL: "all "}


def _who(scope: Scope, known: ScopeValues) -> list[Phrase]:
    if scope.teams:
        phrases = [Phrase(_names(scope.teams, "team", known), "team")]
        if scope.departments:
            phrases.append(Phrase(_names(scope.departments, "department", known), "department"))
    else:
        everyone = "all departments"
        named = _names(scope.departments, "department", known) if scope.departments else everyone
        phrases = [Phrase(named, "department"), Phrase("all teams", "team")]
    parts = ("sport", "sex", "position group")
    narrowed = ((part, getattr(scope, LISTS[part])) for part in parts)
    return [*phrases, *(Phrase(join(values), part) for part, values in narrowed if values)]


def _when(scope: Scope, known: ScopeValues) -> list[Phrase]:
    seasons = join(scope.seasons) if scope.seasons else "all seasons"
    through = f"through {scope.through:%a} {scope.through.day} {scope.through:%b %Y}"
    if known.last_day is not None and scope.through < known.last_day:
        through += " (earlier than the last day)"
    return [Phrase(seasons, "season"), Phrase(through, "through")]


def _guards(scope: Scope) -> list[Phrase]:
    few = f"{join(scope.kinds)} guards".strip()
    kinds = few if len(scope.kinds) <= 3 else f"guards of {len(scope.kinds)} kinds"
    phrases = [Phrase(_VIEW_WORDS[scope.purpose].strip(), "purpose"), Phrase(kinds, "kind")]
    if scope.areas:
        phrases.append(Phrase(join(scope.areas), "area"))
    if scope.sides:
        phrases.append(Phrase(f"{join(scope.sides)} only", "side"))
    if scope.made_of:
        phrases.append(Phrase(f"made of {join(scope.made_of)}", "made of"))
    return phrases


def _names(values: tuple[str, ...], part: str, known: ScopeValues) -> str:
    text = join(tuple(known.name_of(part, value) for value in values))
    # A team is named by its sex and sport, in lower case; a department as people wrote it.
    return text[:1].upper() + text[1:] if part == "team" else text


def join(words: Sequence[str]) -> str:
    """Return words as a person lists them: `a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
