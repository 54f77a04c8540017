"""From a game to an edition: versions chosen, kit fitted, sheets made."""
