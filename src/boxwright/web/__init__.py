"""The studio: the whole job in a browser, through the functions that commands call."""
