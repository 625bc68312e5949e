"""The first cell of each row of a PDF's tables, said to be its heading to who hears it read.

Typst has no words for headings of rows yet. The structure that it writes is plain, one object for
each cell, so that cells can be said to be headings there and the objects put in order again.

Source: ISO 32000-1:2008, 7.5.4 (cross-reference table), 14.8.5.7 (the attribute Scope).
"""

import re
from itertools import pairwise

_ENTRY = re.compile(rb"(\d{10}) (\d{5}) n")
_ROW = re.compile(rb"/Type/StructElem/S/TR\b.*?/K\[(\d+) 0 R")
_CELL, _HEADING = b"/Type/StructElem/S/TD/P", b"/Type/StructElem/S/TH/P"
_ATTRIBUTES, _SCOPED = b"/A[<</O/Table", b"/A[<</O/Table/Scope/Row"


def with_row_headers(data: bytes) -> bytes:
    """Return a PDF of typst in which the first cell of each row is the row's heading.

    Where it is written in another way than is known here, it is returned as it was.
    """
    start = data.rfind(b"\nxref\n") + 1
    places = [int(place) for place, _ in _ENTRY.findall(data[start:])]
    if start <= 0 or places != sorted(places) or not places:
        return data
    head, tail = data[: places[0]], data[start:]
    objects = [data[first:after] for first, after in pairwise([*places, start])]
    for row in (found for one in objects if (found := _ROW.search(one))):
        cell = int(row[1]) - 1
        if _CELL in objects[cell] and _ATTRIBUTES in objects[cell]:
            objects[cell] = objects[cell].replace(_CELL, _HEADING).replace(_ATTRIBUTES, _SCOPED, 1)
    body, moved = head, iter(_offsets(len(head), objects))
    body += b"".join(objects)
    tail = _ENTRY.sub(lambda entry: b"%010d %b n" % (next(moved), entry[2]), tail)
    return body + re.sub(rb"startxref\s+\d+", b"startxref\n%d" % len(body), tail)


def _offsets(start: int, objects: list[bytes]) -> list[int]:
    offsets = [start]
    for one in objects:
        offsets.append(offsets[-1] + len(one))
    return offsets
