"""Ways to make good files wrong: by bytes, by cells, by structure."""

import io
import re
import zipfile
from collections.abc import Callable
from random import Random

from tests.fuzz.good_files import Rows

NASTY = (
    "", " ", "0", "-1", "1e999", "nan", "inf", "NULL", "=1+1", "b;=1+1", "'=1", "\u202eabc", "\x00",
    "2026-02-30", "31/12/2026", "12/31/2026", "2026-09-05T18:00", "2026-09-05T25:61Z", "0000-00-00",
    "9999-12-31", "1 Sep", "Sep", "45000", "45000.75", "99999999999999999999", "-0.0", "1,5",
    "1.234", "1.234,5",
    "£", "é" * 300, "x" * 70_000, "A1", "a1", "Ana Reed", "left", "LEFT", "both", "full",
    "yes", "game", "T1", "D1", "S1", "G1", "wrist", "2026", "reason", "value", "file_row", "column",
    "\n", "a\nb", '"', '""', "a,b", "a;b", "a\tb", "{}", "{value}", "{0}", "%s", "$1", "\\", "👩‍🚀",
    "3:30", "5h12", "90 min", "12 mm", "50%", "TRUE", "FALSE", "None", "n/a", "?", "total", "Total",
    "America/Chicago", "Mars/North", "00:00", "24:00", "6pm", "athlete", "file_no", "_asked", "row",
)  # fmt: skip
HEADINGS = (
    "reason", "value", "file_row", "file_no", "column", "row", "athlete", "athlete_name", "session",
    "rejected_row", "date", "Date", "time", "starts_at", "team", "season", "side", "kind", "note",
    "", " ", "column_1", "_reason", "record", "x" * 5_000, "athlete_jersey", "session_on",
    "guard_kind",
)  # fmt: skip
_WORDS = (
    "3", "-1", "1.5", "true", "[]", "{}", '"x"', "'x'", "[[3]]", "{a = 1}", "2026-01-01", "", "inf",
    '["a", 3]', "nan", '"\\u0000"', "[" * 2_000, "12:00:00", '"dmy"', '"mdy"',
)  # fmt: skip


def by_bytes(data: bytes, chance: Random) -> bytes:
    """Change, take out, put in, double or cut off a few bytes."""
    changed = bytearray(data)
    for _ in range(chance.choice([1, 1, 2, 5, 30])):
        at = chance.randrange(len(changed) + 1)
        what = chance.randrange(6)
        if what == 0 and at < len(changed):
            changed[at] = chance.randrange(256)
        elif what == 1:
            del changed[at : at + chance.choice([1, 3, 50])]
        elif what == 2:
            changed[at:at] = bytes(chance.randrange(256) for _ in range(chance.choice([1, 4])))
        elif what == 3:
            changed[at:at] = changed[at : at + chance.choice([5, 100, 2_000])]
        elif what == 4 and chance.random() < 0.2:
            del changed[at:]
        else:
            changed[at:at] = chance.choice([b'"', b"\n", b"\x00", b"\xff", b"\r", b";", b"[", b"'"])
    return bytes(changed)


def by_cells(rows: Rows, chance: Random) -> Rows:
    """Put other values into a few cells, mostly below the header."""
    rows = [list(row) for row in rows]
    for _ in range(chance.choice([1, 1, 2, 5])):
        row = rows[chance.randrange(len(rows))] if chance.random() < 0.15 else rows[-1]
        if len(rows) > 1 and chance.random() < 0.7:
            row = rows[chance.randrange(1, len(rows))]
        if row:
            row[chance.randrange(len(row))] = chance.choice(NASTY)
    return rows


def by_structure(rows: Rows, chance: Random) -> Rows:
    """Drop, double, swap or rename columns and rows, turn the table round, or leave it ragged."""
    rows = [list(row) for row in rows]
    for _ in range(chance.choice([1, 1, 2, 3])):
        rows = _changed(rows, chance) or [[""]]
    return rows


def _changed(rows: Rows, chance: Random) -> Rows:
    at = chance.randrange(max(1, len(rows[0])))
    line = chance.randrange(len(rows))
    heading = chance.choice(HEADINGS)
    before, row, after = rows[:line], rows[line], rows[line + 1 :]
    ways: tuple[Callable[[], Rows], ...] = (
        lambda: [[*one[:at], *one[at + 1 :]] for one in rows],
        lambda: [one + one[at : at + 1] for one in rows],
        lambda: [one[::-1] for one in rows],
        lambda: [[*rows[0][:at], heading, *rows[0][at + 1 :]], *rows[1:]],
        lambda: rows[1:],
        lambda: rows[:1],
        lambda: rows + rows[1:],
        lambda: [list(column) for column in zip(*rows, strict=False)],
        lambda: [*before, row[: at + 1], *after],
        lambda: [*before, [*row, "x", ""], *after],
        lambda: [["Our season"], [], *rows, ["Total", "3"]],
        lambda: [rows[0], *([*one[:at], "", *one[at + 1 :]] for one in rows[1:])],
        lambda: [[*one, *(f"{heading}{n}" for n in range(300))] for one in rows],
        lambda: [*rows[:line], rows[0], *rows[line:]],
    )
    return chance.choice(ways)()


def in_package(data: bytes, chance: Random) -> bytes:
    """Change a member of a ZIP file, or drop, double or rename one."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old:
        parts = {name: old.read(name) for name in old.namelist()}
    name = chance.choice(sorted(parts))
    what = chance.randrange(4)
    if what == 0:
        parts[name] = by_bytes(parts[name], chance)
    elif what == 1:
        junk = chance.choice([b"-1", b"x", b"", b"99999999999", b"XFD1048576", b"\xff", b"s"])
        places = list(re.finditer(rb'"([^"]*)"', parts[name]))
        if places:
            one = chance.choice(places)
            parts[name] = parts[name][: one.start(1)] + junk + parts[name][one.end(1) :]
    elif what == 2:
        del parts[name]
    else:
        parts[chance.choice(["x.xml", "../x", name.upper()])] = parts.pop(name)
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        for one, content in parts.items():
            new.writestr(one, content)
    return made.getvalue()


def in_words(text: str, chance: Random, how: str) -> bytes:
    """Change a file of words: by bytes, its values (“cells”), or its lines (“structure”)."""
    if how == "bytes":
        return by_bytes(text.encode(), chance)
    lines = text.splitlines()
    for _ in range(chance.choice([1, 1, 2, 4])):
        at = chance.randrange(len(lines))
        name, is_pair, _ = lines[at].partition(" = ")
        if how == "cells" and is_pair:
            lines[at] = f"{name} = {chance.choice(_WORDS)}"
        elif how == "cells":
            lines[at] = re.sub(
                r"\w+", lambda _: chance.choice(["x", "sheet", "3"]), lines[at], count=1
            )
        else:
            other = chance.randrange(len(lines))
            match chance.randrange(3):
                case 0:
                    lines[at], lines[other] = lines[other], lines[at]
                case 1:
                    lines.insert(at, lines[other])
                case _:
                    del lines[at]
                    lines = lines or [""]
    return ("\n".join(lines) + "\n").encode()
