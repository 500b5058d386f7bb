"""What one tractor, as it stands, can run, lift and tow: a sheet to hang on it."""
