"""Stock by itself, with size and price, and with a version by which a change knows what it was based on."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Widen the table."""
    with op.batch_alter_table("stock_items") as table:
        table.add_column(sa.Column("size", sa.String(100)))
        table.add_column(sa.Column("price", sa.String(20)))
        table.add_column(sa.Column("currency", sa.String(3)))
        table.add_column(sa.Column("version", sa.Integer(), nullable=False, server_default="1"))
        table.add_column(sa.Column("changed_at", sa.String(32)))
        table.alter_column("store_id", existing_type=sa.String(64), nullable=True)
    with op.batch_alter_table("stock_items") as table:
        table.alter_column("version", existing_type=sa.Integer(), server_default=None)


def downgrade() -> None:
    """Narrow it again; stock that belongs to no store has no place there."""
    op.execute("DELETE FROM stock_items WHERE store_id IS NULL")
    with op.batch_alter_table("stock_items") as table:
        table.alter_column("store_id", existing_type=sa.String(64), nullable=False)
        for column in ("changed_at", "version", "currency", "price", "size"):
            table.drop_column(column)
