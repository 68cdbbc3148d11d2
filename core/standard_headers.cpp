// Holds the precompiled standard headers that every module of core/ reuses; it has no code of its own.
