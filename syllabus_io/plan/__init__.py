"""Resolved items and settings in, a plan of a student's time out."""
