"""Bytes become text: the encodings that spreadsheets write, settled and told."""

import codecs

from seasonboard.errors import IntakeError, Problem
from seasonboard.store.intake.problems import Findings

_MAGIC = (b"PK\x03\x04", b"PAR1", b"%PDF", b"\xd0\xcf\x11\xe0", b"\x1f\x8b", b"\x89PNG", b"SQLite")
_SAMPLE = 65536
_CONTROLS = bytes(set(range(32)) - {9, 10, 13, 27})


def decoded(data: bytes, label: str, findings: Findings) -> bytes:
    r"""Return the bytes of a text file in UTF-8 with `\n` line ends and no byte order mark.

    UTF-8, UTF-16 (with a mark, or recognised by its zero bytes) and, when it is not valid UTF-8,
    Windows-1252 are read. Any but UTF-8 is noted.

    Raises:
        IntakeError: It is not text in one of these encodings, or empty.
    """
    if data.startswith(_MAGIC):
        raise _not_text(label)
    name = _encoding(data)
    if name == "utf-8":
        text = data.removeprefix(codecs.BOM_UTF8)
    else:
        try:
            text = data.decode(name).removeprefix("\ufeff").encode("utf-8")
        except UnicodeError as error:
            raise _not_text(label) from error
        called = {"cp1252": "Windows-1252"}.get(name, "UTF-16")
        said = f"is not UTF-8; it was read as {called}. Check a name with an accent."
        findings.tell(label, said)
    if text.count(0) * 20 > len(text) or (name != "utf-8" and _is_binary(text[:_SAMPLE])):
        raise _not_text(label)
    if b"\r" in text:
        text = text.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    if not text.strip():
        raise refused(label, None, "is empty; its first row has to name the columns.")
    return text


def refused(label: str, row: int | None, said: str) -> IntakeError:
    """Return the error that refuses a whole file."""
    problem = Problem(label, row, None, None, said)
    return IntakeError(problem.sentence(), [problem])


def _encoding(data: bytes) -> str:
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    sample = data[:_SAMPLE]
    even, odd = sample[::2].count(0), sample[1::2].count(0)
    many, few = max(even, odd), min(even, odd)
    if many and len(data) % 2 == 0 and many * 5 > len(sample) and few * 20 < len(sample):
        return "utf-16-le" if odd > even else "utf-16-be"
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return "cp1252"  # which lacks five bytes: text with them is refused
    return "utf-8"


def _is_binary(data: bytes) -> bool:
    return (len(data) - len(data.translate(None, _CONTROLS))) * 50 > len(data)


def _not_text(label: str) -> IntakeError:
    said = "is not a CSV file in UTF-8, UTF-16 or Windows-1252; save the table as CSV (UTF-8)."
    return refused(label, None, said)
