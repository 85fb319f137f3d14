# Made by client/generator/generate.py from the contract with SHA-256 6d62f87312c2f4f64d6a4a9d63feae4000e80b81cd76799a24e8f239812132ea. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "6d62f87312c2f4f64d6a4a9d63feae4000e80b81cd76799a24e8f239812132ea"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
