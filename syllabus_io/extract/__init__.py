"""Files in, documents out: lines and tables in reading order, each with its place."""
