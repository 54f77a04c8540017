"""One session as it is played: events in, state out."""
