"""The sheet and the files of a sweep."""
