"""One module per stage between plug and motor, each of which wires itself into the circuit."""
