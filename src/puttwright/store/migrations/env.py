"""Run the steps on the connection that ``store.migrate`` hands over, in its transaction."""

from __future__ import annotations

from alembic import context

from puttwright.store.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
