# Made by client/generator/generate.py from the contract with SHA-256 8e90e0ac1f9b51666e19c6a10a5ee5292e15d5e22d85d0dc22ee7b1e0eb744fa. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "8e90e0ac1f9b51666e19c6a10a5ee5292e15d5e22d85d0dc22ee7b1e0eb744fa"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
