"""A place as several rooms show it: the map, its mark, its words."""
