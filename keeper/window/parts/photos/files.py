"""Choosing photos among the files of this computer."""

from keeper.actions.photos.kept import ENDINGS

FILES = f"Photos ({' '.join(f'*.{ending}' for ending in ENDINGS)});;All files (*)"
"""What a dialog for files offers: what is taken, and nothing else."""
