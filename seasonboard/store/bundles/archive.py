"""The file of a bundle: a ZIP of known parts, stored as they are, with a seal over every byte.

The seal is the comment at the end of the ZIP: the SHA-256 of all bytes before its digits. It tells
damage and careless changes. It is no signature: whoever rewrites the whole file can seal it again.
"""

import hashlib
import io
import zipfile
from collections.abc import Mapping
from pathlib import Path

from seasonboard.store.bundles.manifest import Manifest, damaged_bundle, display_text, read_manifest
from seasonboard.store.intake.decoding import refused

MANIFEST = "manifest.json"
MOST_BYTES = 1 << 30
"""A bundle is at most so large; so is all that is in it, since nothing is packed."""
MOST_MANIFEST = 1 << 16

_UNREADABLE = (zipfile.BadZipFile, EOFError, OSError, RuntimeError, ValueError)
"""What an archive that is no bundle raises; a RuntimeError where a password locks it."""
_LABEL = b"seasonboard bundle sha256 "
_DIGITS = 64
_DATE = (1980, 1, 1, 0, 0, 0)


def pack(manifest: Manifest, parts: Mapping[str, bytes]) -> bytes:
    """Return the bytes of a bundle; the same content makes the same bytes."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_STORED) as package:
        for name, data in {MANIFEST: manifest.as_json(), **parts}.items():
            package.writestr(zipfile.ZipInfo(name, _DATE), data)
        package.comment = _LABEL + b"0" * _DIGITS
    return seal(made.getvalue())


def seal(data: bytes) -> bytes:
    """Return the bytes of a bundle with its seal renewed."""
    body = data[:-_DIGITS]
    return body + hashlib.sha256(body).hexdigest().encode()


def is_bundle(path: Path) -> bool:
    """Say whether a file ends as bundles do; whether it is whole is not looked at."""
    size = len(_LABEL) + _DIGITS
    with path.open("rb") as file:
        file.seek(max(0, path.stat().st_size - size))
        return file.read(size).startswith(_LABEL)


def unpack(data: bytes, label: str) -> tuple[Manifest, dict[str, bytes]]:
    """Return the manifest and the parts of a bundle, once all of them are as they were written.

    Nothing of a part is read before its name and size are those of the manifest. `label` is the
    file's name, for messages.

    Raises:
        IntakeError: It is no bundle, is cut off or changed, holds what no bundle holds, or is of a
            newer version.
    """
    _check_seal(data, label)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            entries = _entries(package, label)
            if entries[MANIFEST].file_size > MOST_MANIFEST:
                raise refused(label, None, "has a list of its parts that is too long for one.")
            manifest = read_manifest(package.read(MANIFEST), label)
            _check_sizes(entries, manifest, label)
            parts = {one.name: package.read(one.name) for one in manifest.parts}
    except _UNREADABLE as error:
        raise damaged_bundle(label, "cannot be read as a bundle:") from error
    for one in manifest.parts:
        if hashlib.sha256(parts[one.name]).hexdigest() != one.sha256:
            raise damaged_bundle(label, f"is not as it was written: {one.name} differs.")
    return manifest, parts


def _check_seal(data: bytes, label: str) -> None:
    if not data.startswith(b"PK\x03\x04"):
        said = "is not a bundle; make one with “seasonboard bundle OUT.bundle --store FILE”."
        raise refused(label, None, said)
    start = len(data) - len(_LABEL) - _DIGITS
    if start < 0 or data[start:-_DIGITS] != _LABEL or seal(data) != data:
        said = "is cut off, was changed since it was written, or is another kind of ZIP file."
        raise damaged_bundle(label, said)


def _entries(package: zipfile.ZipFile, label: str) -> dict[str, zipfile.ZipInfo]:
    """Return the parts by name: each once, none under a path of its own, none packed."""
    entries: dict[str, zipfile.ZipInfo] = {}
    for entry in package.infolist():
        name = entry.filename
        if name in entries:
            raise damaged_bundle(label, f"holds “{display_text(name)}” twice; a bundle never does.")
        if name != entry.orig_filename or "\\" in name or ".." in name or name.startswith("/"):
            said = f"holds “{display_text(entry.orig_filename)}”, which names a place outside it;"
            raise damaged_bundle(label, f"{said} a bundle never does.")
        if entry.compress_type != zipfile.ZIP_STORED or entry.file_size != entry.compress_size:
            raise damaged_bundle(
                label, f"holds “{display_text(name)}” packed, which no bundle does."
            )
        entries[name] = entry
    if MANIFEST not in entries:
        raise damaged_bundle(label, f"has no list of its parts ({MANIFEST}).")
    return entries


def _check_sizes(entries: Mapping[str, zipfile.ZipInfo], manifest: Manifest, label: str) -> None:
    named = {one.name: one for one in manifest.parts}
    if sum(entry.file_size for entry in entries.values()) > MOST_BYTES:
        raise damaged_bundle(label, "unpacks to more than 1 GB, which no bundle does.")
    if more := sorted(entries.keys() - named.keys() - {MANIFEST}):
        raise damaged_bundle(
            label, f"holds “{display_text(more[0])}”, which its list of parts does not name."
        )
    for name, one in named.items():
        if name not in entries:
            raise damaged_bundle(label, f"lacks “{name}”, which its list of parts names.")
        if entries[name].file_size != one.size:
            said = f"holds “{name}” in {entries[name].file_size:,} bytes; its list of parts says"
            raise damaged_bundle(label, f"{said} {one.size:,}.")
