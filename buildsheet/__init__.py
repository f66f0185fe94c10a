"""Build packets for machines made around salvaged motors: one project file in, one printable packet out."""

__version__ = "0.1.0"
