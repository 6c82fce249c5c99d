"""The compiled job as a spreadsheet workbook."""
