"""What the tables of keys, bolts, fits and the like must hold, each as its layout."""

from collections.abc import Mapping

from torqcheck.materials.alignment_columns import ALIGNMENT_LAYOUTS
from torqcheck.materials.bolt_columns import BOLT_LAYOUTS
from torqcheck.materials.column import Layout
from torqcheck.materials.fit_columns import FIT_LAYOUTS
from torqcheck.materials.key_columns import KEY_LAYOUTS
from torqcheck.materials.stock_columns import STOCK_LAYOUTS
from torqcheck.materials.treatment_columns import TREATMENT_LAYOUTS
from torqcheck.materials.weld_columns import WELD_LAYOUTS

__all__ = ["JOINT_LAYOUTS"]

JOINT_LAYOUTS: Mapping[str, Layout] = {
    **ALIGNMENT_LAYOUTS,
    **FIT_LAYOUTS,
    **WELD_LAYOUTS,
    **KEY_LAYOUTS,
    **BOLT_LAYOUTS,
    **TREATMENT_LAYOUTS,
    **STOCK_LAYOUTS,
}
