"""What the process that reads a file says to the one that asked: blocks, each after its length."""

import json
import struct
from collections.abc import Iterator
from pathlib import Path
from typing import Any, BinaryIO

DONE = b"done\n"
"""What the process that reads says when the reply to one file is whole."""
_LENGTH = struct.Struct("<Q")


class RefusedFileError(Exception):
    """A file is more than is read, or cannot be; the text continues a sentence about it."""


def write_block(out: BinaryIO, data: bytes) -> None:
    """Write one block."""
    out.write(_LENGTH.pack(len(data)))
    out.write(data)


def write_words(out: BinaryIO, words: Any) -> None:  # noqa: ANN401 - whatever JSON holds
    """Write one block of JSON."""
    write_block(out, json.dumps(words).encode())


def blocks(path: Path) -> Iterator[bytes]:
    """Return the blocks of a reply, one by one; it is removed after the last."""
    with path.open("rb") as reply:
        while head := reply.read(_LENGTH.size):
            (length,) = _LENGTH.unpack(head)
            yield reply.read(length)
    path.unlink()
