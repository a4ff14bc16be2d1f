"""Files into values: is it safe, where does everything stand, what was typed, what is lost or was added."""
