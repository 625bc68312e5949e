"""A CSV file is measured before its lines are parted: counting bytes costs next to nothing."""

from seasonboard.file_limits import MIB, MOST_CELLS, MOST_COLUMNS, MOST_LINE
from seasonboard.store.intake.decoding import refused

_BREAK = b"\n"


def check_lines(data: bytes, label: str) -> None:
    """Refuse text with a line so long that it is no row of a table.

    Every stretch of half the limit has to hold the end of a line, so a line between half the limit
    and all of it may be refused or not; a longer one always is.

    Raises:
        IntakeError: It has such a line.
    """
    step = MOST_LINE // 2
    for start in range(0, len(data) - step + 1, step):
        if data.find(_BREAK, start, start + step) < 0:
            row = data.count(_BREAK, 0, start) + 1
            said = f"is longer than {step // MIB} MB, which no row of a table is. Save the table "
            raise refused(label, row, f"{said}as CSV again, a line for each row.")


def check_cells(data: bytes, mark: str, label: str) -> None:
    """Refuse text with more cells than are read.

    Raises:
        IntakeError: It has more.
    """
    cells = data.count(mark.encode()) + data.count(_BREAK)
    if cells > MOST_CELLS:
        said = f"has about {cells:,} cells; at most {MOST_CELLS:,} are read. Load it in parts."
        raise refused(label, None, said)


def check_width(columns: int, row: int, label: str) -> None:
    """Refuse a header with more columns than are read.

    Raises:
        IntakeError: It has more.
    """
    if columns > MOST_COLUMNS:
        said = f"names {columns:,} columns; at most {MOST_COLUMNS:,} are read. Save only the table."
        raise refused(label, row, said)
