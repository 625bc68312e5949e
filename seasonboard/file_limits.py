"""How much of a foreign file is read: each limit once, with its reason.

Sizes are in bytes, times in seconds. All are far above what a season needs, and small enough that
a file made or broken to be endless is refused before it fills the memory.
"""

MIB = 1 << 20

MOST_FILE = 512 * MIB
"""A table as a file: five million rows of attendance, as text, have half of that."""

MOST_UNPACKED = 1024 * MIB
"""What a workbook or a Parquet file unpacks to. A sheet filled to its last row has a third of it;
few kilobytes can unpack to as much."""

MOST_MEMBERS = 10_000
"""Files inside a workbook: a few for each sheet, and its pictures."""

MOST_CELLS = 20_000_000
"""Cells of one sheet, from its first to its last: a sheet's 1,048,576 rows by 19 columns, more than
any table has. Readers build the whole area, so one stray cell can make it billions."""

MOST_COLUMNS = 500
"""Columns of one sheet: every day of a year, and names beside them; twice as many take 14 s to part
from their headings."""

MOST_TEXT = 512 * MIB
"""Text of all cells of a workbook: one shared text can stand in a million cells."""

MOST_LINE = 4 * MIB
"""One line of a CSV file. A spreadsheet's cell holds 32,767 letters; a hundred such are a line."""

MOST_SETTINGS = 4 * MIB
"""A file of our own in words: a mapping, spellings, settings, a draft, a handout in the ledger."""

MOST_NESTED = 100
"""Parts of one key in such a file, `a.b.c`; ours have three."""

MOST_MEMORY = 2048 * MIB
"""Memory of the process that reads a workbook or a Parquet file; measured: a full sheet of seven
columns takes a quarter."""

LEAST_SECONDS = 12
"""Time of that process for any file; a usual workbook takes one, on a slow machine too."""

BYTES_A_SECOND = MIB
"""For each of these it has a second more."""

MOST_COMPARED = 100_000
"""Pairs of names compared when a near one is sought, which takes about two seconds."""

MOST_WEIGHED = 20_000
"""Pairs of a team and a name that may mean it, weighed word by word, which takes two seconds."""
