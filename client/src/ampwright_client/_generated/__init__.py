# Made by client/generator/generate.py from the contract with SHA-256 996ee451620cfd8f63259a26e089f3d2e23850b94177b2da40a0391dcdae4604. Do not edit.
"""Which contract is this code made from?"""

CONTRACT_SHA256 = "996ee451620cfd8f63259a26e089f3d2e23850b94177b2da40a0391dcdae4604"
CONTRACT_VERSION = "0.1.0"
__all__ = ["CONTRACT_SHA256", "CONTRACT_VERSION"]
