"""Bundles: what is new in one store, as one file that another store loads."""

from seasonboard.store.bundles.packing import Packed, write_bundle

__all__ = ["Packed", "write_bundle"]
