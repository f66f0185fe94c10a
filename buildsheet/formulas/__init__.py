"""Physics and rules as pure functions, one module per topic: plain SI floats in and out, each with its source."""
