"""What a computation can find wrong with an edition; one check, one file."""
