# Made by client/generator/generate.py from the contract with SHA-256 a9f35fb6316a5f481c37e1c2c850fdc4bfc2781e2b8491c04909c5aaea7178be. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "a9f35fb6316a5f481c37e1c2c850fdc4bfc2781e2b8491c04909c5aaea7178be"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
