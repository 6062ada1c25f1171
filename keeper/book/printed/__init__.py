"""Pages to print: laid out to the millimetre, marked, set, and put upon the sheets of a home printer."""
