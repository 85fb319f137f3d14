# Made by client/generator/generate.py from the contract with SHA-256 c87398cde8c6971763daf0fc0026dff58464be583b333776160ca05c0e763fbf. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "c87398cde8c6971763daf0fc0026dff58464be583b333776160ca05c0e763fbf"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
