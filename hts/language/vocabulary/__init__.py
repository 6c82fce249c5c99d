"""Every entry of the language, declared once: read, checked, explained and exported from here."""
