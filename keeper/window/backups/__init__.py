"""The page of backups: what each holds, a look inside, and bringing back."""
