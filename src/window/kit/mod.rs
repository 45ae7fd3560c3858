//! The few widgets every view is built from. Each is named for a screen reader and works from the keyboard.
