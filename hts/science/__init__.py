"""Facts and physics of the trade: tables, thermocouples, heat, steel, uncertainty."""
