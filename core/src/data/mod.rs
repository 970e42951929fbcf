//! Properties of fluids and air, each with its source and valid range.
