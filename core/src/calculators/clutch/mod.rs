//! Clutch: will it hold, how heavy is the pedal, does it release?
