# Made by client/generator/generate.py from the contract with SHA-256 7745b3d8aa50082fdea73b70876e018aee5e91df8d70d2dbb8b511284cd075e3. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "7745b3d8aa50082fdea73b70876e018aee5e91df8d70d2dbb8b511284cd075e3"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
