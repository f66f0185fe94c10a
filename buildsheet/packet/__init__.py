"""The paper: which sheets there are, what each shows, how a value becomes print, and the files that are written."""
