# Made by client/generator/generate.py from the contract with SHA-256 4852ccb9ab526e6bf460a5e3e850f584cc26c0150b02728dc2888ecad394f334. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "4852ccb9ab526e6bf460a5e3e850f584cc26c0150b02728dc2888ecad394f334"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
