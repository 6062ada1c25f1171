"""Everything given out in open formats, as an archive that tells by itself whether it is whole; and taken in again."""
