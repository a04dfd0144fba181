"""The sheet of the axial stack."""
