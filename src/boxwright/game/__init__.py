"""What a game, a kit and a room are, and how their folder is read and written."""
