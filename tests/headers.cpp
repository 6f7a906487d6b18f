// Nothing: the precompiled headers of the tests belong to the target of this file.
