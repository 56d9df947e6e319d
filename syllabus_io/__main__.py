"""Runs the command line: ``python -m syllabus_io``."""

from syllabus_io.cli.main import run

if __name__ == "__main__":
    run()
