# Made by client/generator/generate.py from the contract with SHA-256 03deaa3de520743f10615f12bd3805c153ca58ee6993ed077d764c18d12fd7de. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "03deaa3de520743f10615f12bd3805c153ca58ee6993ed077d764c18d12fd7de"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
