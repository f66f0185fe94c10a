"""Places in the machine and what they need; sizes that all ways share; fitting of parts to places."""
