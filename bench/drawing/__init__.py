"""Drawing: a file or a picture becomes tesserae and joints, and is written out again."""
