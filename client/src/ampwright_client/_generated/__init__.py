# Made by client/generator/generate.py from the contract with SHA-256 c3242dd8d29172e19b156554ca3ce36401d07423da8917275bf88db8eec3da86. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "c3242dd8d29172e19b156554ca3ce36401d07423da8917275bf88db8eec3da86"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
