"""Plans the chain of a household that ferments its food scraps in sealed vessels."""

__version__ = "0.1.0"
