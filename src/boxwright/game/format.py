"""The number of the form that files and answers have: another is refused, never guessed at."""

FORMAT = 1
