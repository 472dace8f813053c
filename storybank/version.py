"""The version of Storybank, stored in every set."""

VERSION = "0.1.0"
