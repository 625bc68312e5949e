"""A document as a page, as print, and as a workbook."""
