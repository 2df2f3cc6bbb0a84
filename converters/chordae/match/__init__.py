"""From a local word to the terms it may mean: candidates with reasons, never a silent decision."""
