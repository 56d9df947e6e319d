"""Results in formats for other programs."""
