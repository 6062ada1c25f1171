"""What pages to print hold, and the paper they are printed on."""
