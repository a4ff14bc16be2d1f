"""What plays the vendor, for the demonstration and the tests: types into files, spoils them, saves them again."""
