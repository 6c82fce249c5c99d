"""What several rules need: places, edges, steps, rates, widths, and how a breach is told."""
