"""The tables of a logbook file, and the number of their form."""

from typing import Final

import sqlalchemy as sa

FORM: Final = 1  # raised with each migration

METADATA: Final = sa.MetaData()

# One line for each entry. No statement of this project changes or deletes one.
ENTRY: Final = sa.Table(
    "entry",
    METADATA,
    sa.Column("site", sa.String(40), primary_key=True),
    sa.Column("sequence", sa.Integer, primary_key=True, autoincrement=False),
    sa.Column("id", sa.String(64), nullable=False),
    sa.Column("text", sa.Text, nullable=False),  # as first stored, never made anew
    sa.Column("hash", sa.String(64), nullable=False),  # over the hash before it and this text
    sa.UniqueConstraint("site", "id", name="entry_once"),
)

# What the file itself is.
BOOK: Final = sa.Table(
    "book",
    METADATA,
    sa.Column("key", sa.String(40), primary_key=True),
    sa.Column("value", sa.Text, nullable=False),
)
