"""Reading outlines in processes of their own, so that a crafted or damaged file costs that file alone."""
