"""The tests of speccheck, floor by floor."""
