"""Date phrases and a term calendar in, resolutions out. Nothing here asks what day it is today."""
