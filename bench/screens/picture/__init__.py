"""How a panel is turned into what a graphics card draws; only `triangles` and `labels` need Kivy."""
