"""A workbook comes back: read, written anew, held against revised outlines, kept safe on the disk."""
