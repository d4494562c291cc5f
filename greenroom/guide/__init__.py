"""What is known of the crops, each figure with its source."""
