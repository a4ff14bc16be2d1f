"""One module a command: its options, one call into the library, what it prints, its exit status."""
