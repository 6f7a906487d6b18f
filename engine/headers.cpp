// Nothing: the precompiled headers of the engine belong to the target of this file.
