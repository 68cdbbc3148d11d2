// Holds the precompiled headers that the tests of core/ reuse; it has no code of its own.
