# Made by client/generator/generate.py from the contract with SHA-256 57893afef49d47b5eac201d6c6199d7f69ae716adef98aa97e24cb2bb6d6d889. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "57893afef49d47b5eac201d6c6199d7f69ae716adef98aa97e24cb2bb6d6d889"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
