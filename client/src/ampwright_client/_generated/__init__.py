# Made by client/generator/generate.py from the contract with SHA-256 448ce231d7c2a27267af2a7a03f9d1c88d1cbe82e222b09696ce87a4879ca104. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "448ce231d7c2a27267af2a7a03f9d1c88d1cbe82e222b09696ce87a4879ca104"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
