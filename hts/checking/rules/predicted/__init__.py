"""What a prediction of the temperature field says; asked for by `predict`, or by the check."""
