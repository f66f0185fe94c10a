"""View models: what a sheet's template reads where a plain value will not do. Layout and order, no arithmetic on values."""
