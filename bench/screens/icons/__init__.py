"""Our own icons: what is drawn, as data; its dots; and where a key has room for one."""
