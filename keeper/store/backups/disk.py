"""What the system says of a disk that does not take what is written."""

import errno

FULL_DISK = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})

CLOSED = frozenset({errno.EROFS, errno.EACCES, errno.EPERM})
"""Closed to writing."""

FULL_OR_CLOSED = FULL_DISK | {errno.EROFS}
"""What can only be the fault of where it is written to: a source, too, may be closed to whoever reads."""
