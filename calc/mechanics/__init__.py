"""Engineering functions: plain numbers in SI units in, plain numbers in SI units out."""
