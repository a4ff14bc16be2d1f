"""Published facts and tables of the clothing trade, each with its source.

Read by the declarations of the sheets and by the audit; this part imports nothing else of ours.
"""
