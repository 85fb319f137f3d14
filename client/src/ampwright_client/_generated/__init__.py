# Made by client/generator/generate.py from the contract with SHA-256 920c4b80d0088280c8a205ca081edccf9e20a0a03788cc3324f47bc2cff7aa1f. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "920c4b80d0088280c8a205ca081edccf9e20a0a03788cc3324f47bc2cff7aa1f"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
