"""The print-outs of an edition; one print-out, one file, with a template of the same stem.

A print-out is a module of this folder with `READER`, `ORDER` (where it comes among the
files) and `pages(printing)`, or `files(printing)` where it makes several. Its name, which
also names its file, is the message `printout.NAME` with the module's name. Nothing lists
them. `printing`, `lines` and `clues` are what they share.
"""
