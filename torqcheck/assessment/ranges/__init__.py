"""What is not known exactly: the range of each number, and which reading moves it most."""
