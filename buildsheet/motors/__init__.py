"""One module per kind of motor: what a builder can state of it, its constants, and what it makes of a supply."""
