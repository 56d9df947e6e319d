"""Changed inputs of every kind: nothing may crash, hang or be misread as something it is not."""
