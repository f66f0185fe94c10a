"""One module per way of powering: what it puts on the motor's terminals, its places, its circuit, its facts."""
