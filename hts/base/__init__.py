"""What everything else stands on: texts, findings, quantities, data."""
