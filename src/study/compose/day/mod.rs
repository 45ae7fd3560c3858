//! A day through time: the physics of the day with the parts of the steady answers, and what comes of it.

mod crankcase;
