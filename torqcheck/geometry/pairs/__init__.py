"""Two parts held against each other: lash and play, true mate, worn mate or false fit."""
