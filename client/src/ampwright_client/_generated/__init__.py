# Made by client/generator/generate.py from the contract with SHA-256 312b029d2ef29b008f1218d343a57ce04c670df8196f5159129900afb9341b32. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "312b029d2ef29b008f1218d343a57ce04c670df8196f5159129900afb9341b32"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
