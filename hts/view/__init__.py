"""A specification and its run as pages in a browser, beside any editor.

Pages are functions from what is known to markup; `server` answers on the machine itself alone, and
nothing a page asks changes anything. `export` writes one page as a file without script.
"""
