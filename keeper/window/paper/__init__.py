"""What is made for paper: dialogs and previews."""
