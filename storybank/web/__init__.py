"""The teacher's page: what `storybank serve` shows in the browser of this machine."""
