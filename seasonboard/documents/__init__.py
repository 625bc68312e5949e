"""Documents to hand over: answers put together as a page, as print, or as a workbook."""
