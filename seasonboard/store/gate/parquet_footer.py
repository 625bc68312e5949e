"""What a Parquet file says of itself at its end: rows, columns and unpacked bytes.

Read without a Parquet reader, so that nothing is unpacked for it. The footer is Thrift's compact
protocol (Apache Parquet format, parquet.thrift: FileMetaData 2 schema, 3 num_rows, 4 row_groups;
RowGroup 2 total_byte_size; SchemaElement 5 num_children).
"""

import struct
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

MAGIC = b"PAR1"
_SCHEMA, _ROWS, _GROUPS = 2, 3, 4
_GROUP_BYTES, _CHILDREN = 2, 5
_MOST_DEEP = 20
_LONG_SIZE = 15


class FooterError(ValueError):
    """The end of a file is not that of a Parquet file."""


@dataclass(frozen=True, slots=True)
class Footer:
    """Rows, plain columns, and bytes of all columns unpacked."""

    rows: int
    columns: int
    unpacked: int


def read_footer(data: bytes) -> Footer:
    """Return what a Parquet file says of itself.

    Raises:
        FooterError: It is no Parquet file, or its end is damaged.
    """
    if len(data) < 12 or not data.startswith(MAGIC) or not data.endswith(MAGIC):
        raise FooterError("no mark at its ends")
    (length,) = struct.unpack("<I", data[-8:-4])
    if length > len(data) - 12:
        raise FooterError("a footer longer than the file")
    try:
        found = _Compact(data[len(data) - 8 - length : -8]).fields()
    except (IndexError, struct.error, RecursionError) as error:
        raise FooterError("a footer that ends too early") from error
    rows, schema, groups = found.get(_ROWS), found.get(_SCHEMA), found.get(_GROUPS)
    if type(rows) is not int or rows < 0 or not isinstance(schema, list):
        raise FooterError("a footer without rows or columns")
    sizes = [one.get(_GROUP_BYTES) for one in groups or [] if isinstance(one, Mapping)]
    leaves = [one for one in schema if isinstance(one, Mapping) and not one.get(_CHILDREN)]
    if not all(type(size) is int and size >= 0 for size in sizes):
        raise FooterError("groups of rows without a size")
    return Footer(rows, len(leaves), sum(size for size in sizes if size))


class _Compact:
    """Reads Thrift's compact protocol: structures as field → value."""

    def __init__(self, data: bytes) -> None:
        self._data = data
        self._at = 0

    def fields(self, deep: int = 0) -> dict[int, Any]:
        """Return the structure that begins here."""
        if deep > _MOST_DEEP:
            raise FooterError("structures too deep in each other")
        number, found = 0, {}
        while head := self._byte():
            number = number + (head >> 4) if head >> 4 else self._signed()
            found[number] = self._value(head & 15, deep)
        return found

    def _value(self, kind: int, deep: int) -> Any:  # noqa: ANN401, PLR0911 - as many kinds as there are
        if kind in {1, 2}:  # true and false, which have no bytes of their own
            return kind == 1
        if kind == 3:
            return self._byte()
        if kind in {4, 5, 6}:
            return self._signed()
        if kind == 7:
            return self._bytes(8)
        if kind == 8:
            return self._bytes(self._unsigned())
        if kind in {9, 10}:
            return self._many(deep)
        if kind == 12:
            return self.fields(deep + 1)
        raise FooterError(f"a value of unknown kind {kind}")

    def _many(self, deep: int) -> list[Any]:
        head = self._byte()
        count = head >> 4
        count = self._unsigned() if count == _LONG_SIZE else count
        if count > len(self._data):
            raise FooterError("a list longer than the file")
        kind = head & 15
        if kind in {1, 2}:
            return [self._byte() == 1 for _ in range(count)]
        return [self._value(kind, deep) for _ in range(count)]

    def _byte(self) -> int:
        self._at += 1
        return self._data[self._at - 1]

    def _bytes(self, count: int) -> bytes:
        self._at += count
        if self._at > len(self._data):
            raise FooterError("a text longer than the file")
        return self._data[self._at - count : self._at]

    def _unsigned(self) -> int:
        number = shift = 0
        while True:
            part = self._byte()
            number |= (part & 127) << shift
            shift += 7
            if part < 128:
                return number
            if shift > 63:
                raise FooterError("a number that is too long")

    def _signed(self) -> int:
        number = self._unsigned()
        return (number >> 1) ^ -(number & 1)
