"""What titles, names of sheets and names of files say: the year, the season, the team, a game."""

import re
from collections.abc import Sequence

import polars as pl

from seasonboard.store.intake.seasons import years_in
from seasonboard.store.intake.synonyms import Synonyms
from seasonboard.store.intake.text_columns import folded

_SEASON_WORDS = ("fall", "autumn", "spring", "winter", "summer")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_SEX_LETTERS = {"w": "women", "m": "men"}
_SMALL_WORDS = frozenset({"college", "university", "the", "of", "state"})
SHORT_SPORTS = {
    "soc": "soccer", "lax": "lacrosse", "bb": "basketball", "bball": "basketball",
    "bkb": "basketball", "vb": "volleyball", "vball": "volleyball", "fh": "field hockey",
    "ih": "ice hockey", "hky": "ice hockey", "sb": "softball", "fb": "football",
    "xc": "cross country", "tf": "track and field", "wp": "water polo", "rug": "rugby",
    "wr": "wrestling",
}  # fmt: skip
"""How teams are written short on schedules; common practice, no source."""


def season_of(texts: Sequence[str], seasons: Sequence[str], only: str | None) -> str | None:
    """Return the season that titles are of: the known one they name, the only one, or a new one."""
    words = set(folded(" ".join(texts)).split())
    fitting = [one for one in seasons if set(folded(one).split()) <= words]
    return fitting[0] if len(fitting) == 1 else only or season_written(texts)


def season_written(texts: Sequence[str]) -> str | None:
    """Return the season that titles name outright, “2026 fall” of “FALL 2026”; None for none."""
    years = years_in(texts)
    if years is None:
        return None
    if years.last != years.first:
        return f"{years.first}-{years.last % 100:02d}"
    words = folded(" ".join(texts)).split()
    return next((f"{years.first} {part}" for part in _SEASON_WORDS if part in words), None)


def season_question(texts: Sequence[str], seasons: Sequence[str]) -> str:
    """Return the question which season a sheet is of, with the year that its titles name."""
    years = years_in(texts)
    said = "nothing says which season this is. Say it with --value "
    said += f"season='{years.first if years else 2026} fall'"
    return said + (f" (there are {', '.join(seasons)})." if seasons else ".")


def wordy(text: str) -> str:
    """Return a title without months, numbers and names of seasons, so that titles compare."""
    words = re.sub(r"[0-9]+", " ", folded(text)).split()
    return " ".join(word for word in words if word not in _SEASON_WORDS and word[:3] not in _MONTHS)


def teams_called(texts: Sequence[str], teams: pl.DataFrame, synonyms: Synonyms) -> list[str]:
    """Return the teams that texts fit best: key, department, sport and who plays in it.

    `texts` are titles and names, or one cell; `teams` has `team`, `department`, `department_name`,
    `sport`, `sex`.
    """
    text = folded(" ".join(texts).casefold().replace("’", "'").replace("'s", "s"))
    words = set(text.split())
    weights: dict[str, int] = {}
    columns = ("team", "department", "department_name", "sport", "sex")
    filled = teams.select(pl.col(columns).fill_null(""))
    for team, department, name, sport, sex in filled.iter_rows():
        if folded(team) in {text, *words} or f" {folded(team)} " in f" {text} ":
            weights[team] = 100
        elif weight := _sport_weight(words, text, sport, sex, synonyms):
            own = set(folded(name).split()) - _SMALL_WORDS
            weight += 3 if own and own <= words else 2 if folded(department) in words else 0
            weights[team] = weight
    best = max(weights.values(), default=0)
    return [team for team, weight in weights.items() if weight == best]


def team_said(texts: Sequence[str], synonyms: Synonyms) -> tuple[str, str]:
    """Return who plays and the sport that titles say: women, soccer of “WSOC”; empty if neither."""
    text = folded(" ".join(texts).casefold().replace("’", "'").replace("'s", "s"))
    words = text.split()
    codes = {
        (_SEX_LETTERS[word[0]], SHORT_SPORTS[word[1:]])
        for word in words
        if word[0] in _SEX_LETTERS and word[1:] in SHORT_SPORTS
    }
    if len(codes) == 1:
        return codes.pop()
    sexes = {meant for word in words if (meant := _sexes(synonyms).get(word))}
    sports = {sport for sport in SHORT_SPORTS.values() if f" {sport} " in f" {text} "}
    return (sexes.pop() if len(sexes) == 1 else "", sports.pop() if len(sports) == 1 else "")


def _sexes(synonyms: Synonyms) -> dict[str, str]:
    """Return word → who plays; “both” and “f” say something else in titles."""
    known = {"women": "women", "men": "men"} | dict(synonyms.words.get("sex", {}))
    return {word: meant for word, meant in known.items() if word not in {"both", "f"}}


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
    if not codes and f" {called} " not in f" {text} ":
        return 0
    known = _sexes(synonyms)
    sexes = codes | {known[word] for word in words if word in known}
    return 0 if sexes and sex not in sexes else 4 if sexes else 2
