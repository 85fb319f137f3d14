# Made by client/generator/generate.py from the contract with SHA-256 7ba1f95b5e67eb25df3ebc9647119b799cc9aa5505e4b9c88e51d3c44b380e03. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "7ba1f95b5e67eb25df3ebc9647119b799cc9aa5505e4b9c88e51d3c44b380e03"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
