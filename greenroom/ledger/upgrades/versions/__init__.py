"""One script a version; Alembic finds and orders them."""
