"""The plan as a formula-driven workbook. Formats only; nothing is decided here."""
