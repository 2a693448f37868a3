"""What is said of the device as a whole: what it is, its label, its ports, its size, its boards."""
