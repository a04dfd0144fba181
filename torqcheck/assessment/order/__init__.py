"""Drawing data of a new part for the shop: making, material, inspection, mate."""
