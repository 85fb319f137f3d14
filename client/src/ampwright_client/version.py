"""Which version of the client is this?"""

__version__ = "1.0.0"
