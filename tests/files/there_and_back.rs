//! there_and_back
