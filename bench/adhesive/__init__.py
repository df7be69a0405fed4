"""The adhesive: its file, a batch of it, how long it may be worked, how warm it gets, and its cautions."""
