"""Turns a stack of course outlines into one term plan."""

__version__ = "0.1.0"
