"""What a user asks for, as functions: (studio folder, wish) to files and facts.

No command line, no working folder, no print; clock and progress come in as arguments.
"""
