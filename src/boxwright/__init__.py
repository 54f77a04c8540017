"""Boxwright: prove a lock-box game before class, and print it."""

__version__ = "0.1.0"
