"""What titles, names of sheets and names of files say: the year, the season, the team, a game."""

import re
from collections.abc import Sequence

import polars as pl

from seasonboard.store.intake.folding import folded
from seasonboard.store.intake.season_years import years_in
from seasonboard.store.intake.synonyms import Synonyms

_SEASON_WORDS = ("fall", "autumn", "spring", "winter", "summer")
_SEX_LETTERS = {"w": "women", "m": "men"}


def season_called(texts: Sequence[str], seasons: Sequence[str]) -> str | None:
    """Return the one known season all of whose words stand in the texts."""
    words = set(folded(" ".join(texts)).split())
    fitting = [one for one in seasons if set(folded(one).split()) <= words]
    return fitting[0] if len(fitting) == 1 else None


def season_written(texts: Sequence[str]) -> str | None:
    """Return the season that titles name outright, “2026 fall” of “FALL 2026”; None for none."""
    years = years_in(texts)
    words = folded(" ".join(texts)).split()
    part = next((one for one in _SEASON_WORDS if one in words), None)
    if years is None:
        return None
    if years.last != years.first:
        return f"{years.first}-{years.last % 100:02d}"
    return f"{years.first} {part}" if part else None


def wordy(text: str) -> str:
    """Return a title without months, numbers and names of seasons, so that titles compare."""
    words = re.sub(r"[0-9]+", " ", folded(text)).split()
    return " ".join(word for word in words if word not in _SEASON_WORDS and word[:3] not in _MONTHS)


_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def teams_called(texts: Sequence[str], teams: pl.DataFrame, synonyms: Synonyms) -> list[str]:
    """Return the known teams that fit texts best: key, department, sport and who plays in it.

    Args:
        texts: Titles, the name of the sheet, the name of the file; or one cell.
        teams: `team`, `department`, `department_name`, `sport`, `sex`.
        synonyms: Knows how women and men are written.
    """
    text = folded(" ".join(texts).casefold().replace("’", "'").replace("'s", "s"))
    words = set(text.split())
    weights: dict[str, int] = {}
    for team, department, name, sport, sex in teams.select(
        "team", "department", "department_name", "sport", "sex"
    ).iter_rows():
        if folded(team) in {text, *words} or f" {folded(team)} " in f" {text} ":
            weights[team] = 100
            continue
        weight = _sport_weight(words, text, sport, sex, synonyms)
        if not weight:
            continue
        own = set(folded(name or "").split()) - {"college", "university", "the", "of", "state"}
        weight += 3 if own and own <= words else 2 if folded(department) in words else 0
        weights[team] = weight
    best = max(weights.values(), default=0)
    return [team for team, weight in weights.items() if weight == best]


def _sport_weight(words: set[str], text: str, sport: str, sex: str, synonyms: Synonyms) -> int:
    """Weigh how surely words name a sport and who plays it; 0 when they do not, or not both."""
    called = folded(sport)
    codes = {  # WSOC, MLAX: who plays, and the first letters of the sport
        _SEX_LETTERS[word[0]]
        for word in words
        if len(word) > 2
        and word[0] in _SEX_LETTERS
        and (called.startswith(word[1:]) or SHORT_SPORTS.get(word[1:]) == called)
    }
    sexes = codes | {meant for word in words if (meant := _sex_of(word, synonyms))}
    if not codes and f" {called} " not in f" {text} ":
        return 0
    return 0 if sexes and sex not in sexes else 4 if sexes else 2


def _sex_of(word: str, synonyms: Synonyms) -> str | None:
    if word in {"women", "men"}:
        return word
    return synonyms.words.get("sex", {}).get(word) if word not in {"both", "f"} else None


SHORT_SPORTS = {
    "soc": "soccer",
    "lax": "lacrosse",
    "bb": "basketball",
    "bball": "basketball",
    "bkb": "basketball",
    "vb": "volleyball",
    "vball": "volleyball",
    "fh": "field hockey",
    "ih": "ice hockey",
    "hky": "ice hockey",
    "sb": "softball",
    "fb": "football",
    "xc": "cross country",
    "tf": "track and field",
    "wp": "water polo",
    "rug": "rugby",
    "wr": "wrestling",
}
"""How teams are written short on schedules; common practice, no source."""
