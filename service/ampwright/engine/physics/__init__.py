"""How do sources, cords, devices and loads behave? Arrays in, arrays out; one module for each question.

Importing any module of this package first settles how kernels are compiled and kept (`compile`).
"""

from ampwright.engine.physics import compile as _compile  # noqa: F401
