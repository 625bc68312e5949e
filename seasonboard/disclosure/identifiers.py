"""Identifiers in what was written: names, keys, jerseys, logins and paths, and hidden parts."""

import re
import unicodedata
import zipfile
import zlib
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass
from html import unescape
from io import BytesIO

from seasonboard.errors import SeasonboardError

_MONTHS = """
january february march april may june july august september october november december
"""
_DAYS = "monday tuesday wednesday thursday friday saturday sunday"
ORDINARY = frozenset(f"{_MONTHS} {_DAYS} and not the will".split())
"""Words that stand in documents anyway: alone they are not taken for a part of a name."""

PATHS = {
    "/home/": r"/home/",
    "/Users/": r"/users/",
    "/root/": r"/root/",
    "/tmp/": r"/tmp/",  # noqa: S108 - looked for, not used
    "/var/folders/": r"/var/folders/",
    "C:\\": r"(?<![^\W_])[a-z]:\\",
    "file:/": r"file:/",
}
"""Beginnings of paths, which tell who made a document and where the records are."""

_PLAIN = re.compile(rb"[\t\n\r\x20-\x7e]{12,}")
_WIDE = re.compile(rb"(?:[\x00-\x02][\x20-\xff]){4,}")
"""Letters in a row among packed bytes: plain ones, and as in the properties of a PDF."""

_UNSEEN = {
    "a hidden sheet": r"<sheet\b[^>]*\bstate=\"(?:hidden|veryHidden)\"",
    "a hidden name": r"<definedName\b(?![^>]*_xlnm)[^>]*\bhidden=\"1\"",
    "a hidden row or column": r"<(?:col|row)\b[^>]*\bhidden=\"(?:1|true)\"",
    "a comment": r"<!--|<comment\b",
    "text that is not shown": r"display:\s*none|<\w+[^>]*\shidden(?:[\s>]|=\"(?:hidden)?\")",
}
_JERSEY = r"(?:#|№|\bno\.?|\bnumber|\bjersey(?: number)?)\s*0*{}(?![^\W_])"


class IdentifierError(SeasonboardError):
    """A handout would be called, or would say, what outsiders may not know."""


@dataclass(frozen=True, slots=True)
class ForbiddenWords:
    """Words that may stand nowhere in a document.

    Each part of a name is looked for as well; jersey numbers after #, no., number or jersey only.
    Keys are those of athletes, guards and injuries; logins also names of machines; places are
    paths, beside the usual beginnings of paths.
    """

    names: Collection[str] = ()
    keys: Collection[str] = ()
    jerseys: Collection[str] = ()
    logins: Collection[str] = ()
    places: Collection[str] = ()


@dataclass(frozen=True, slots=True)
class WrittenIdentifier:
    """A forbidden word that was written: where, what kind of word, and the word."""

    place: str
    kind: str
    word: str

    def sentence(self) -> str:
        """Return where it stands and what to do."""
        return (
            f"{self.place}: the {self.kind} “{self.word}” stands in it, and may not be handed "
            "out. Take it out and make the document again."
        )


def identifiers_in(
    texts: Mapping[str, str], forbidden: ForbiddenWords, *, but_for: Collection[str] = ()
) -> tuple[WrittenIdentifier, ...]:
    """Return every forbidden word in the texts, by where it stands; empty where all is clean.

    Capitals and accents do not matter, and a word ends where letters and digits end: “Reyes” is
    found in `north_reyes.xlsx` and “Reyes-Tanaka”, not in “Reyesville”.

    Args:
        texts: All that was written, by place (`written_texts` takes a file apart).
        forbidden: What may not stand in it.
        but_for: Words that the document uses itself; alone they are not taken for a part of a name.
    """
    spared = ORDINARY | {folded(word) for word in but_for}
    searches = tuple(_searches(forbidden, spared))
    identifiers: list[WrittenIdentifier] = []
    for place, text in texts.items():
        plain = folded(unescape(text))
        identifiers += (
            WrittenIdentifier(place, kind, word) for kind, word, search in searches if search(plain)
        )
    return tuple(identifiers)


def written_texts(name: str, data: bytes) -> dict[str, str]:
    """Return all text of a file by place: each part of a workbook, the streams of a PDF, HTML.

    The letters on a PDF's pages may be numbers of a font that is in it: look at the text that the
    pages were made from as well.
    """
    texts = {f"the name of {name}": name}
    if zipfile.is_zipfile(BytesIO(data)):
        with zipfile.ZipFile(BytesIO(data)) as parts:
            for part in parts.namelist():
                texts[f"{name}, {part}"] = f"{part}\n{_letters(parts.read(part))}"
    elif data.startswith(b"%PDF"):
        texts[name] = "\n".join(_writing(piece) for piece in _pieces(data))
    else:
        texts[name] = _letters(data)
    return texts


def hidden_parts(name: str, data: bytes) -> tuple[str, ...]:
    """Return what of a file its reader would not see: hidden sheets, rows, columns, comments."""
    return tuple(
        f"{place} has {what}; take it out."
        for place, text in written_texts(name, data).items()
        for what, pattern in _UNSEEN.items()
        if re.search(pattern, text)
    )


def _letters(data: bytes) -> str:
    """Return bytes as text, also where two bytes make a letter as in a PDF's properties."""
    read = [data.decode("utf-8", "ignore")]
    if b"\0" in data:
        read += [data[start:].decode("utf-16-be", "ignore") for start in (0, 1)]
    return "\n".join(read)


def _writing(piece: bytes) -> str:
    """Return what is writing in a part of a PDF; of packed bytes only letters in a row.

    By chance a dozen stand in a row four times in a million bytes: too seldom for a path to begin.
    """
    try:
        return piece.decode("utf-8")
    except UnicodeDecodeError:
        plain = b"\n".join(_PLAIN.findall(piece)).decode("ascii")
        wide = "\n".join(run.decode("utf-16-be") for run in _WIDE.findall(piece))
        return f"{plain}\n{wide}"


def _pieces(data: bytes) -> Iterator[bytes]:
    yield data
    for stream in re.finditer(rb"stream\r?\n(.*?)endstream", data, re.DOTALL):
        try:
            yield zlib.decompress(stream.group(1))
        except zlib.error:
            continue


def folded(text: str) -> str:
    """Return text without capitals and accents, as names are looked for."""
    if text.isascii():
        return text.lower()
    apart = unicodedata.normalize("NFKD", text)
    return "".join(c for c in apart if not unicodedata.combining(c)).casefold()


def _searches(
    forbidden: ForbiddenWords, spared: frozenset[str]
) -> Iterator[tuple[str, str, Callable[[str], object]]]:
    for name in forbidden.names:
        yield from _of_name(name, spared)
    for kind, words in (("key", forbidden.keys), ("login name", forbidden.logins)):
        for word in words:
            if word.strip():
                yield kind, word, _words(re.escape(folded(word.strip())))
    for jersey in forbidden.jerseys:
        if jersey.strip():
            bare = re.escape(folded(jersey.strip()).lstrip("0") or "0")
            yield "jersey", jersey, re.compile(_JERSEY.format(bare)).search
    for path, pattern in PATHS.items():
        yield "path", path, re.compile(pattern).search
    for place in forbidden.places:
        yield "path", place, re.compile(re.escape(folded(place))).search


def _of_name(
    name: str, spared: frozenset[str]
) -> Iterator[tuple[str, str, Callable[[str], object]]]:
    """Return what to look for of a name: all of it, and each part that is no ordinary word."""
    parts = re.findall(r"[^\W_]+", folded(name))
    if len(parts) > 1:
        yield "name", name, _words(r"[\W_]+".join(map(re.escape, parts)))
    for part in parts:
        if len(part) > 2 and part not in spared:
            yield "name", part, _words(re.escape(part))


def _words(pattern: str) -> Callable[[str], object]:
    """Return a search for whole words; an underscore ends a word."""
    return re.compile(rf"(?<![^\W_])(?:{pattern})(?![^\W_])").search
