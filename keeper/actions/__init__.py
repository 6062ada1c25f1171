"""One function per intention; what window and command line may call."""
