"""A folder that tells by itself whether it is whole: BagIt (RFC 8493), written, checked and read."""
