"""Documents in, outlines out: course facts, grading, items and days off, as written; no date is computed here."""
