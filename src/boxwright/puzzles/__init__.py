"""The shelf of kinds: a kind is `NAME.py` and `NAME.typ`, and nothing else to register."""
