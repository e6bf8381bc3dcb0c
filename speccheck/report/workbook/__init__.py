"""workbook."""
