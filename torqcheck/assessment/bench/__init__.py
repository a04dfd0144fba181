"""What the readings of the bench say: true mate or not, play, alignment."""
