"""The liquid that is drawn off a batch: how strong it is, and where it may go."""
