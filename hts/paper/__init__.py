"""What is printed: sheets, drawings, packets, workbooks, flags."""
