"""What the command line does with nights: lines kept, shown and found, readings, places, rest."""
