"""From two descriptions, or many readings, to what they share, where they part and how well readers agree."""
