"""Which tool goes into which receptacle, through which cords, and what stays off?"""

from __future__ import annotations

from ampwright.engine.calculations.outlet_plan_plugging import plug_in

__all__ = ["plug_in"]
