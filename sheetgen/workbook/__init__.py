"""A book in a file: values, places, calculation, writing, reading, issuing, accepting. Takes the book as an argument."""
