"""The marks of attendance and wear grids: what a legend says of them, and what is usual."""

import re
from collections.abc import Iterable, Mapping, Sequence

from seasonboard.store.intake.text_columns import folded

ATTENDANCE, WEAR = "attendance", "wear"
NO_ROW = "no row"
"""The meaning of a mark that says nothing was recorded."""

MARK = "mark "
"""How an answer to one mark is called: this, and the mark."""
BLANK = ""
"""The mark of an empty cell."""

_PARTED = re.compile(r"\s{2,}|[;|]|,(?=(?:(?!\s{2})[^,=;|\n]){1,16}=)|\n")
_EQUALS = re.compile(r"^\s*(.{1,16}?)\s*(?:=|:|\s[–—-]\s|→)\s*(.+)$", re.DOTALL)
_BESIDE = re.compile(r"^([^\w\s(]|½)\s+(.+)$", re.DOTALL)
_BLANKS = ("blank", "(blank)", "empty", "(empty)", "no mark", "nothing")

_FULL = r"\b(full|fully|everything|whole|all|present|complete|here|played|participated)\b"
_LIMITED = r"\b(limited|part|partial|partially|modified|half|some|restricted|reduced)\b"
_OUT = r"\b(out|absent|not take part|did not|dnp|missed|away|sat|not practi[cs]ing|unavailable)\b"
_TAKING_PART = r"\b(?:took|take|takes|taking) part\b"
_UNKNOWN = r"\b(not marked|unknown|not known|no record|not recorded|not taken|nothing recorded)\b"
_REASONS = (
    (r"\b(inj|injured|injury|hurt)\b", "injury"),
    (r"\b(ill|sick|illness|sickness|unwell)\b", "illness"),
    (r"\b(coach|selection|not selected|rest|rested|healthy scratch|dnd)\b", "selection"),
    (r"\b(class|family|excused|personal|academic|exam|travel)\b", "personal"),
)
_WORN_PART = r"\b(part|half|taken off|took off|removed|off at|some|1st|first|2nd|second)\b"
_NOT_WORN = r"\b(no|not|none|without|off|bare|did not)\b"
_WORN = r"\b(yes|worn|wore|on|whole|all|full|entire)\b"

_USUAL = {
    "full": "x ✓ ✔ √ • ● 1 y yes p f full present pr ok here ✓✓",
    "limited": "l lim ltd ½ 1/2 half / partial part m mod modified lm",
    "out": "o 0 – - — a abs absent n no dnp out ✗ ✘ dnd",
    "out injury": "i inj injured dnp-inj out-inj o-inj hurt ir",
    "out illness": "s sick ill dnp-ill out-ill dnp-sick",
    "out personal": "e exc ex excused c class fam family pers",
    "out selection": "cd dnp-cd coach rest r",
}
_USUAL_WEAR = {
    "yes all": "x ✓ ✔ √ • ● 1 y yes full all worn on w",
    "yes part": "½ 1/2 half part partial / p some",
    "no": "n no 0 – - — off o ✗ ✘ none",
}
_USUAL_MARKS = {
    holds: {mark: meaning for meaning, marks in usual.items() for mark in marks.split()}
    for holds, usual in ((ATTENDANCE, _USUAL), (WEAR, _USUAL_WEAR))
}
_USUAL_MARKS[ATTENDANCE] |= {"dnp inj": "out injury", "dnp ill": "out illness"}
_USUAL_MARKS[WEAR] |= dict.fromkeys(("1st half", "2nd half"), "yes part")


def usual_meaning(mark: str, holds: str) -> str | None:
    """Return what a mark usually means; None when that is not plain.

    `holds` is `attendance` (answers such as “out injury”) or `wear` (“yes all”, “no”).
    """
    words = folded(mark)
    usual = _USUAL_MARKS[holds].get(mark.strip().casefold())
    return usual or (said_meaning(words, holds) if len(words) > 2 else None)


def said_meaning(text: str, holds: str) -> str | None:
    """Return what the words of a legend mean, as `usual_meaning` does; None when they say neither.

    “did not take part, injured” is “out injury”, “not marked” no row at all.
    """
    words = folded(text)
    if re.search(_UNKNOWN, words):
        return NO_ROW
    if holds == WEAR:
        for pattern, meaning in ((_WORN_PART, "yes part"), (_NOT_WORN, "no"), (_WORN, "yes all")):
            if re.search(pattern, words):
                return meaning
        return None
    reason = next((f" {word}" for pattern, word in _REASONS if re.search(pattern, words)), "")
    bare = re.sub(_TAKING_PART, "played", words)  # not a part of it
    for pattern, part in ((_OUT, "out"), (_LIMITED, "limited"), (_FULL, "full")):
        if re.search(pattern, words if part == "out" else bare):
            return part if part == "full" else part + reason
    return f"out{reason}" if reason else None


def legend_of(texts: Iterable[str], holds: str) -> dict[str, str]:
    """Return mark → meaning of legends such as “X = full   L = limited   blank = not marked”."""
    legend: dict[str, str] = {}
    for part in (part for text in texts for part in _PARTED.split(text)):
        if pair := _EQUALS.match(part) or _BESIDE.match(part.strip()):
            legend |= _entry(pair[1], pair[2], holds)
    return legend


def legend_of_rows(rows: Sequence[Sequence[str]], holds: str) -> dict[str, str]:
    """Return mark → meaning of a sheet with a mark and its meaning in each row."""
    legend: dict[str, str] = {}
    for cells in rows:
        filled = [cell.strip() for cell in cells if cell.strip()]
        if len(filled) == 2 and len(filled[0]) <= 16:
            legend |= _entry(filled[0], filled[1], holds)
    return legend


def marks_answered(answers: Mapping[str, str], holds: str) -> dict[str, str]:
    """Return mark → meaning of what is answered: of one as `mark Z`, of several as `marks`.

    `answers` are constants of a load, such as `mark Z` → `out injury` and `marks` →
    `Q=full, R=out`; the answer to one goes before.
    """
    several = answers.get(f"{holds}.marks") or answers.get("marks") or ""
    pairs = [part.partition("=")[::2] for part in several.split(",")]
    pairs += [(name.removeprefix(MARK), one) for name, one in answers.items()
              if name.startswith(MARK)]  # fmt: skip
    return {
        mark.strip().casefold(): said_meaning(meaning, holds) or meaning.strip().casefold()
        for mark, meaning in pairs
        if mark.strip() and meaning.strip()
    }


def _entry(mark: str, meaning: str, holds: str) -> dict[str, str]:
    meant = said_meaning(meaning, holds)
    if meant is None:
        return {}
    bare = mark.strip().strip("\"'“”")
    return {BLANK if bare.casefold() in _BLANKS else bare.casefold(): meant}
