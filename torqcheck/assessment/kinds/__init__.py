"""The kinds of joint beside the spline: one module each, from the file's block to its checks."""
