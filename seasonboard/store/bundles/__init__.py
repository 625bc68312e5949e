"""Bundles: what is new in one store, as one file that another store loads."""

from seasonboard.store.bundles.packing import write_bundle
from seasonboard.store_outcomes import BundleContent

__all__ = ["BundleContent", "write_bundle"]
