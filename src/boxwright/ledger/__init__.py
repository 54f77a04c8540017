"""The database: what happened in each session, and what each lock is set to."""
