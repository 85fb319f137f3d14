"""Which tool goes into which outlet?"""
