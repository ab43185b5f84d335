"""What seqviz is not, and the usual cautions: one wording for README, help, pictures and booklets."""

from __future__ import annotations

__all__ = ["BRIEF", "WORKSHOP"]

BRIEF = (
    "seqviz is a planning aid. The designer's drawings and manual and the fastener maker's data govern. "
    "Its results are not approved data, and replace no inspection by a qualified person and no local rule."
)

WORKSHOP = (
    "In the workshop: eye and hearing protection. Gloves for raw sheet, off at a turning drill, and no loose "
    "sleeves. Clamp small parts to drill them. Mind ejected stems. Collect swarf before closing. Air the "
    "room when priming or using solvent. Two people turn long work, and block it up before anyone reaches "
    "under it."
)
