"""What a style starts from and shares: the brand file, style numbers, grades, starters, its figures and its drawings."""
