"""Timings beside comparators, in the same run: ``python -m tests.benchmarks.reading`` (phrases, workbook, start).

Nothing here runs with the tests: a time is a property of a machine, not of the program.
"""
