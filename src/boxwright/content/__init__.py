"""The teacher's own tables and texts, as sheets draw on them."""
