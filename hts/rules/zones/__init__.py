"""Control zones and thermocouples."""
