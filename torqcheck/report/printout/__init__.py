"""The printout for the build record, put together from the sheets."""
