"""The build record: a folder to which every check of a build is added, and from which nothing is taken."""

from torqcheck.record.comparing import difference
from torqcheck.record.folder import read_entry, read_log
from torqcheck.record.verifying import verify
from torqcheck.record.writing import append, refuse_folder

__all__ = ["append", "difference", "read_entry", "read_log", "refuse_folder", "verify"]
