"""The texts in other languages: Qt Linguist's files, and the list of what the lower floors may say.

``galvanote_de.ts`` is the source; ``galvanote_de.qm`` is made from it and kept beside it, so that a checkout,
an editable installation and a wheel all have it without a tool at installation time; a test holds the two
together. ``python -m gui.translations.update`` brings all of it up to date after a text has changed.
"""
