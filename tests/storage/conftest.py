"""The tests of the storage run on both databases."""

from tests.both_databases import cluster, database, empty, url

__all__ = ["cluster", "database", "empty", "url"]
