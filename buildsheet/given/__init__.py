"""What a builder can state: fields that know their place in the file, the models made of them, and what is wrong."""
