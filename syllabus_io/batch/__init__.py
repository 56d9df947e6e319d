"""Thousands of outlines of many students: a workbook a student, or the records of every outline."""
