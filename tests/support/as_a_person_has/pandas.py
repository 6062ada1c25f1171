"""No person has pandas, and sqlite-utils, which begins a keeper, brings it in where it is: half a second each time."""

raise ImportError("Programs that tests start have what a person has.")
