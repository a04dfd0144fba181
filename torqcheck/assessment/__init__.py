"""Models put together: one scenario in, one result out."""

from torqcheck.assessment.assess import assess
from torqcheck.assessment.result import Assessment

__all__ = ["Assessment", "assess"]
