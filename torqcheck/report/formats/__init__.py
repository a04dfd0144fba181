"""One renderer for each form of a sheet, and the files they write."""
