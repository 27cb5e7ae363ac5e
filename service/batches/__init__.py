"""Planting lists that are checked in their own time: the work itself, and the two ways of getting it done.

On SQLite a thread of the serving process does it (embedded.py). On PostgreSQL workers of their own do it, to which
Procrastinate hands the work (worker.py). Both call checking.py, which writes each part with the mark of how far it is.
"""
