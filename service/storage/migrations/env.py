"""Runs the migrations on the connection that service/storage/migration.py opened."""

from alembic import context

from service.storage.tables import Table

context.configure(
    connection=context.config.attributes["connection"], target_metadata=Table.metadata, render_as_batch=True
)
context.run_migrations()
